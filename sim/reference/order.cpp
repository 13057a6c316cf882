#include "reference/order.h"

#include "grid/units.h"
#include "grid/within.h"
#include "reference/branches_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

namespace tidemark::reference {

namespace {

using grid::Cell;
using grid::Geodesic;

/// Piece 0 on cells of so many pixels a side.
struct Shape {
    int pixels = 1, width = 0, height = 0;
    double cell_mm = 0;
    std::vector<double> area_mm2; ///< of the shape, one a cell
    std::vector<Cell> cells;      ///< that hold some of it, row by row

    Shape(const Masses& m, const Connected& c, double pixels_per_mm, double cell_wanted_mm) {
        constexpr double slack = 1e-9; // half a millimetre at 4 pixels/mm is two pixels, not one
        pixels = std::max(1, static_cast<int>(std::min(cell_wanted_mm * pixels_per_mm + slack, 1e6)));
        width = (m.width + pixels - 1) / pixels, height = (m.height + pixels - 1) / pixels;
        cell_mm = pixels / pixels_per_mm;
        area_mm2.assign(at({0, height}), 0.0);
        for (int y = 0; y < m.height; ++y)
            for (int x = 0; x < m.width; ++x)
                if (c.at(m, x, y) == 0)
                    area_mm2[at({x / pixels, y / pixels})] += 1 / (pixels_per_mm * pixels_per_mm);
        for (int j = 0; j < height; ++j)
            for (int i = 0; i < width; ++i)
                if (area_mm2[at({i, j})] > 0)
                    cells.push_back({i, j});
    }
    std::size_t at(const Cell& c) const { return static_cast<std::size_t>(c.j) * width + c.i; }
    Geodesic inside() const {
        return {width, height, [&](int i, int j) { return area_mm2[at({i, j})] > 0; }};
    }
    Place place(const Cell& c) const { return {(c.i + 0.5) * cell_mm, (c.j + 0.5) * cell_mm}; }
    Cell nearest(const Place& p) const {
        const auto squared = [&](const Cell& c) {
            const double x = place(c).x_mm - p.x_mm, y = place(c).y_mm - p.y_mm;
            return x * x + y * y;
        };
        return *std::min_element(
            cells.begin(), cells.end(), [&](const Cell& a, const Cell& b) { return squared(a) < squared(b); });
    }
};

/// How gladly a painter begins there: least first. From the top, and from the side of the other hand.
class Beginning {
  public:
    Beginning(const Shape& shape, Hand hand) : last_(shape.width - 1), hand_(hand) {}
    std::tuple<int, int> operator()(const Cell& c) const {
        constexpr int height_counts = 4;
        return {height_counts * c.j + (hand_ == Hand::right ? c.i : last_ - c.i), c.j};
    }

  private:
    int last_;
    Hand hand_;
};

Cell farthest(const Geodesic& inside, const std::vector<Cell>& order, const Beginning& rank) {
    Cell best = order.back();
    for (std::size_t k = order.size(); k-- > 0 && inside.distance(order[k]) == inside.distance(order.back());)
        if (rank(order[k]) < rank(best))
            best = order[k];
    return best;
}

/// The shape seen from one place: distances, parts of bands, and branches.
struct Seen {
    Geodesic inside;
    std::vector<Cell> order;
    Arms parts, arms;

    Seen(const Shape& shape, const Cell& from, const Ordering& how)
        : inside(shape.inside()), order(inside.spread({&from, 1})) {
        constexpr double fewest_cells = 2;
        const double band = std::max(fewest_cells, how.band_mm / shape.cell_mm);
        parts = parts_of_bands(inside, order, shape.width, shape.height, shape.area_mm2, band);
        arms = joined_up(parts, how.branch_mm2, static_cast<int>(std::ceil(how.branch_mm / (band * shape.cell_mm))));
    }
};

/// The farthest cells of the branches that have none beyond them.
std::vector<Cell> ends_of(const Shape& shape, const Seen& seen, const Beginning& rank) {
    std::vector<bool> goes_on(seen.arms.list.size());
    for (const Arm& arm : seen.arms.list)
        for (const int f : arm.from)
            goes_on[f] = true;
    std::vector<std::vector<Cell>> farthest_of(seen.arms.list.size());
    for (const Cell& c : seen.order) {
        std::vector<Cell>& far = farthest_of[seen.arms.of[shape.at(c)]];
        const bool farther = far.empty() || seen.inside.distance(c) > seen.inside.distance(far[0]);
        if (farther || rank(c) < rank(far[0]))
            far.assign(1, c);
    }
    std::vector<Cell> ends;
    for (std::size_t k = 0; k < goes_on.size(); ++k)
        if (!goes_on[k])
            ends.push_back(farthest_of[k][0]);
    return ends;
}

/// The shape seen from the start that a painter would choose.
Seen from_chosen_start(const Shape& shape, const Beginning& rank, const Ordering& how) {
    constexpr float long_enough = 0.75f; // of the longest way
    Cell top = shape.cells.front();
    for (const Cell& c : shape.cells)
        if (c.j == top.j && rank(c) < rank(top))
            top = c;
    Geodesic from_top = shape.inside();
    const std::vector<Cell> order = from_top.spread({&top, 1});
    const Cell one = farthest(from_top, order, rank);
    Seen from_one(shape, one, how);
    const Cell other = farthest(from_one.inside, from_one.order, rank);
    Seen from_other(shape, other, how);
    Cell best = rank(one) < rank(other) ? one : other;
    for (const Seen* seen : {&from_one, &from_other})
        for (const Cell& end : ends_of(shape, *seen, rank))
            if (rank(end) < rank(best) && std::max(from_one.inside.distance(end), from_other.inside.distance(end)) >=
                                              long_enough * from_one.inside.distance(other))
                best = end;
    return best == one ? std::move(from_one) : best == other ? std::move(from_other) : Seen(shape, best, how);
}

/// From numbers by distance to numbers by the order of painting.
std::vector<Branch> branches_in_order(const std::vector<Arm>& arms, double mm2_s, const Ordering& how, Arms& of_cells) {
    const std::vector<int> order = shortest_first(arms);
    const std::vector<double> wait_mm2 = waited(arms, order);
    std::vector<int> number(arms.size());
    std::vector<Branch> branches;
    double now_s = 0;
    for (const int a : order) {
        number[a] = static_cast<int>(branches.size());
        Branch b;
        for (const int f : arms[a].from)
            b.from.push_back(number[f]);
        std::sort(b.from.begin(), b.from.end());
        b.area_mm2 = arms[a].area;
        b.begin_s = now_s, b.end_s = now_s += b.area_mm2 / mm2_s;
        b.waited_s = wait_mm2[a] / mm2_s;
        b.too_long = how.open_s && b.waited_s > *how.open_s;
        b.near_mm = std::numeric_limits<double>::infinity();
        branches.push_back(b);
    }
    for (int& a : of_cells.of)
        a = a < 0 ? a : number[a];
    return branches;
}

/// Cells equally far from the start are painted at one time: a front has no first cell.
std::vector<float> painting_times(const Shape& shape, std::vector<Cell> cells, const Order& o, double mm2_s) {
    const auto branch = [&](const Cell& c) { return o.branch_of[shape.at(c)]; };
    const auto far_mm = [&](const Cell& c) { return o.far_mm[shape.at(c)]; };
    std::stable_sort(cells.begin(), cells.end(), [&](const Cell& a, const Cell& b) {
        return std::pair(branch(a), far_mm(a)) < std::pair(branch(b), far_mm(b));
    });
    std::vector<float> painted_s(o.branch_of.size(), Geodesic::unreached);
    double done_mm2 = 0; // branches are numbered as they are painted
    for (auto front = cells.begin(), next = front; front != cells.end(); front = next) {
        double mm2 = 0;
        for (; next != cells.end() && branch(*next) == branch(*front) && far_mm(*next) == far_mm(*front); ++next)
            mm2 += shape.area_mm2[shape.at(*next)];
        for (auto c = front; c != next; ++c)
            painted_s[shape.at(*c)] = static_cast<float>((done_mm2 + mm2 / 2) / mm2_s);
        done_mm2 += mm2;
    }
    return painted_s;
}

double longest(const std::vector<double>& v) { return v.empty() ? 0 : *std::max_element(v.begin(), v.end()); }

void check(double pixels_per_mm, const Ordering& how) {
    grid::within("pixels_per_mm", pixels_per_mm, {1e-3, 1000, "pixels/mm"});
    grid::within("cell_mm", how.cell_mm, {0.01, 100, "mm"});
    grid::within("band_mm", how.band_mm, {0.1, 1000, "mm"});
    grid::within("branch_mm2", how.branch_mm2, {0, 1e6, "mm²"});
    grid::within("branch_mm", how.branch_mm, {0, 1e4, "mm"});
    grid::within("pace_cm2_s", how.pace_cm2_s, {1e-3, 1000, "cm²/s"});
    if (how.open_s)
        grid::within("open_s", *how.open_s, {0, 1e6, "s"});
}

} // namespace

Order painting_order(const Masses& m, const Connected& c, double pixels_per_mm, const Ordering& how) {
    check(pixels_per_mm, how);
    Order o;
    if (c.pieces.empty())
        return o;
    const Shape shape(m, c, pixels_per_mm, how.cell_mm);
    const Beginning rank(shape, how.hand);
    auto [inside, order, parts, arms] =
        how.start ? Seen(shape, shape.nearest(*how.start), how) : from_chosen_start(shape, rank, how);
    const Cell start = order.front();
    const Cell end = farthest(inside, order, rank);
    o.start = shape.place(start);
    o.area_mm2 = c.pieces[0].area_mm2;
    o.length_mm = inside.distance(end) * shape.cell_mm;
    for (Cell at = end;; at = inside.before(at)) {
        o.way.push_back(shape.place(at));
        if (at == start)
            break;
    }
    std::reverse(o.way.begin(), o.way.end());

    constexpr double mm2_cm2 = 100;
    const double mm2_s = how.pace_cm2_s * mm2_cm2;
    o.minutes = grid::min_from_s(o.area_mm2 / mm2_s);
    std::vector<int> in_turn(parts.list.size());
    for (std::size_t k = 0; k < in_turn.size(); ++k)
        in_turn[k] = static_cast<int>(k);
    o.longest_wait_in_turn_s = longest(waited(parts.list, in_turn)) / mm2_s;
    o.branches = branches_in_order(arms.list, mm2_s, how, arms);
    for (const Branch& b : o.branches)
        o.longest_wait_s = std::max(o.longest_wait_s, b.waited_s);

    o.width = shape.width, o.height = shape.height, o.cell_mm = shape.cell_mm, o.cell_pixels = shape.pixels;
    o.branch_of = std::move(arms.of);
    o.far_mm.assign(o.branch_of.size(), Geodesic::unreached);
    for (const Cell& cell : order) {
        const float far_mm = o.far_mm[shape.at(cell)] = inside.distance(cell) * static_cast<float>(shape.cell_mm);
        Branch& b = o.branches[o.branch_of[shape.at(cell)]];
        if (far_mm < b.near_mm)
            b.near_mm = far_mm, b.first = shape.place(cell);
        if (far_mm >= b.far_mm)
            b.far_mm = far_mm, b.last = shape.place(cell);
    }
    o.painted_s = painting_times(shape, order, o, mm2_s);
    return o;
}

} // namespace tidemark::reference
