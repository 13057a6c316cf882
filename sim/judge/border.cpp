#include "judge/border_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::judge {

namespace {

constexpr double spacing_mm = 0.5;
constexpr int points_a_profile = 2; ///< one profile a millimetre

/// L* along one normal; only the samples within reach count.
struct Ray {
    int first = 0; ///< sample index of lstar.front(), 0 at the outline
    std::vector<float> lstar;
};

Ray cast(const grid::Field<float>& lstar,
         const sheet::Geometry& g,
         const OutlinePoint& o,
         const Reach& reach,
         double step_mm) {
    const double cell = g.cell_m * 1e3;
    Ray ray;
    ray.first = -static_cast<int>(std::floor(reach.inside_mm / step_mm));
    const int last = static_cast<int>(std::floor(reach.outside_mm / step_mm));
    for (int k = ray.first; k <= last; ++k) {
        const double s = k * step_mm;
        const double x = std::clamp(o.x_mm + s * o.out_x, 0.5 * cell, (g.nx - 0.5) * cell);
        const double y = std::clamp(o.y_mm + s * o.out_y, 0.5 * cell, (g.ny - 0.5) * cell);
        ray.lstar.push_back(static_cast<float>(sample_mm(lstar, cell, x, y)));
    }
    return ray;
}

/// Mean over the rays [begin, end), wherever at least half of them reach.
Profile mean_profile(const std::vector<Ray>& rays, int begin, int end, double step_mm, double longest_mm) {
    const int half = static_cast<int>(longest_mm / step_mm) + 1, n = 2 * half + 1;
    std::vector<double> sum(n, 0.0);
    std::vector<int> count(n, 0);
    for (int r = begin; r < end; ++r)
        for (std::size_t k = 0; k < rays[r].lstar.size(); ++k) {
            const int at = rays[r].first + static_cast<int>(k) + half;
            sum[at] += rays[r].lstar[k], ++count[at];
        }
    Profile p;
    p.step_mm = step_mm;
    int first = half; // counts fall off to both sides of the outline, where all rays meet
    while (first > 0 && 2 * count[first - 1] >= end - begin)
        --first;
    p.from_mm = (first - half) * step_mm;
    for (int k = first; k < n && 2 * count[k] >= end - begin; ++k)
        p.lstar.push_back(static_cast<float>(sum[k] / count[k]));
    return p;
}

/// The cell beside a place of the outline; side +1: outside.
CellAt cell_beside(const OutlinePoint& o, double side, const sheet::Geometry& g) {
    const double cell = g.cell_m * 1e3, off = side * std::max(0.75 * cell, 0.5);
    const auto at = [&](double mm, int n) { return std::clamp(static_cast<int>(std::floor(mm / cell)), 0, n - 1); };
    return {at(o.x_mm + off * o.out_x, g.nx), at(o.y_mm + off * o.out_y, g.ny)};
}

Across measured(Profile profile, const EdgeRules& rules) {
    Across a{std::move(profile), {}};
    if (a.profile.lstar.size() >= least_samples)
        a.transition = measure_transition(a.profile, rules.transition);
    return a;
}

/// One unbroken piece of outline with one neighbour.
void add_piece(Border& s,
               const Outline& line,
               const std::vector<Ray>& rays,
               int begin,
               int end,
               bool wraps,
               const sheet::Geometry& g,
               const EdgeRules& rules) {
    BorderPiece piece{.closed = wraps, .length_mm = spacing_mm * (end - begin), .places = {}};
    s.length_mm += piece.length_mm;
    if (piece.length_mm > s.longest_piece_mm) {
        const OutlinePoint& middle = line[begin + (end - begin) / 2];
        s.longest_piece_mm = piece.length_mm, s.middle_x_mm = middle.x_mm, s.middle_y_mm = middle.y_mm;
    }
    const int reach = static_cast<int>(std::lround(0.5 * rules.window_mm / spacing_mm));
    const int start = begin + ((end - begin - 1) % points_a_profile) / 2;
    for (int c = start; c < end; c += points_a_profile) {
        const int from = std::max(begin, c - reach), to = std::min(end, c + reach + 1);
        BorderPlace place{line[c], {}, cell_beside(line[c], -1, g), cell_beside(line[c], 1, g)};
        if (!wraps || (from == c - reach && to == c + reach + 1)) {
            place.across = measured(mean_profile(rays, from, to, 0.1, rules.reach_mm), rules);
        } else {
            std::vector<Ray> around; // a closed outline with one neighbour has no ends
            const int n = end - begin;
            for (int k = c - reach; k <= c + reach; ++k)
                around.push_back(rays[begin + ((k - begin) % n + n) % n]);
            place.across =
                measured(mean_profile(around, 0, static_cast<int>(around.size()), 0.1, rules.reach_mm), rules);
        }
        piece.places.push_back(std::move(place));
    }
    s.pieces.push_back(std::move(piece));
}

bool closes(const Outline& line) {
    const OutlinePoint &a = line.front(), &b = line.back();
    return line.size() > 3 && std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) < 2.5 * spacing_mm;
}

Border& border_with(std::vector<Border>& all, int neighbour) {
    for (Border& s : all)
        if (s.neighbour == neighbour)
            return s;
    all.emplace_back().neighbour = neighbour;
    return all.back();
}

} // namespace

std::vector<Border> borders_of(const plan::Plan& p,
                               const PaintedMap& map,
                               int own,
                               const grid::Field<float>& lstar,
                               const sheet::Geometry& g,
                               const EdgeRules& rules) {
    std::vector<Border> all;
    for (const Outline& line : trace_outlines(map.areas[own].coverage, map.cell_mm, {spacing_mm, 1.0})) {
        const int n = static_cast<int>(line.size());
        std::vector<int> neighbour(n);
        std::vector<Ray> rays(n);
        for (int k = 0; k < n; ++k) {
            neighbour[k] = neighbour_at(p, map, own, line[k]);
            rays[k] = cast(lstar, g, line[k], reach_at(map, own, neighbour[k], line[k], rules.reach_mm), 0.1);
        }
        for (int begin = 0; begin < n;) {
            int end = begin;
            while (end < n && neighbour[end] == neighbour[begin])
                ++end;
            const bool wraps = begin == 0 && end == n && closes(line);
            Border& border = border_with(all, neighbour[begin]);
            for (int k = begin; k < end; ++k)
                border.inside.push_back(cell_beside(line[k], -1, g));
            add_piece(border, line, rays, begin, end, wraps, g, rules);
            begin = end;
        }
    }
    return all;
}

} // namespace tidemark::judge
