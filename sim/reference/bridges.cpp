// The shortest ways through light between pieces, and which of them are worth painting.
#include "grid/geodesic.h"
#include "reference/connected_detail.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <utility>

namespace tidemark::reference {

namespace {

using grid::Cell;
using grid::Geodesic;

/// The nearest that two pieces come to each other: two neighbouring pixels, one reached from either.
struct Meeting {
    float length_pixels = Geodesic::unreached; ///< from middle to middle of the outermost pixels
    Cell on_first, on_second;
};

/// Light, small islands among it, shared out among the pieces worth joining.
class Between {
  public:
    Between(const Masses& m, const Connected& c, double island_mm2)
        : m_(m), c_(c), island_mm2_(island_mm2),
          light_(m.width, m.height, [&](int x, int y) { return joins(x, y) < 0; }),
          nearest_(m.of.size(), -1) {}

    /// By pairs of pieces, the lower first. Ways longer than that are not looked for.
    std::map<std::pair<int, int>, Meeting> meetings(double longest_pixels) {
        std::vector<Cell> outermost;
        for (int y = 0; y < m_.height; ++y)
            for (int x = 0; x < m_.width; ++x)
                if (joins(x, y) >= 0 && has_light_beside(x, y))
                    outermost.push_back({x, y});
        constexpr double hop = 2.3; // a little more than the longest
        const auto order = light_.spread(outermost, static_cast<float>(0.5 * (longest_pixels + 1) + hop));
        for (const Cell& cell : order)
            nearest_[at(cell)] = light_.distance(cell) == 0 ? joins(cell.i, cell.j) : nearest_[at(light_.before(cell))];
        std::map<std::pair<int, int>, Meeting> met;
        for (const Cell& a : order)
            light_.hops_from(a, [&](const Cell& b, float length) {
                const int p = nearest_[at(a)], q = nearest_[at(b)];
                if (q <= p)
                    return; // nothing there, or the same pair from the other side
                const float whole = light_.distance(a) + length + light_.distance(b);
                if (Meeting& best = met[{p, q}]; whole < best.length_pixels)
                    best = {whole, a, b};
            });
        return met;
    }

    /// From the outermost pixel of the one piece to that of the other.
    std::vector<Cell> way(const Meeting& meeting, bool from_second) const {
        std::vector<Cell> cells = back_from(meeting.on_first), rest = back_from(meeting.on_second);
        std::reverse(cells.begin(), cells.end());
        cells.insert(cells.end(), rest.begin(), rest.end());
        if (from_second)
            std::reverse(cells.begin(), cells.end());
        return cells;
    }

  private:
    const Masses& m_;
    const Connected& c_;
    double island_mm2_;
    Geodesic light_;
    std::vector<int> nearest_; ///< piece, one a pixel; -1: none within reach

    std::size_t at(const Cell& c) const { return static_cast<std::size_t>(c.j) * m_.width + c.i; }
    int joins(int x, int y) const {
        const int piece = c_.at(m_, x, y);
        return piece == 0 || (piece > 0 && c_.pieces[piece].area_mm2 >= island_mm2_) ? piece : -1;
    }
    bool has_light_beside(int x, int y) const {
        return (x > 0 && joins(x - 1, y) < 0) || (x + 1 < m_.width && joins(x + 1, y) < 0) ||
               (y > 0 && joins(x, y - 1) < 0) || (y + 1 < m_.height && joins(x, y + 1) < 0);
    }
    std::vector<Cell> back_from(Cell c) const {
        std::vector<Cell> cells{c};
        for (; !(light_.before(c) == c); cells.push_back(c))
            c = light_.before(c);
        return cells;
    }
};

/// What the way crosses, and what edge is lost there.
void look_at_light(const Masses& m, const Connected& c, const std::vector<Cell>& way, Bridge& bridge) {
    std::map<int, int> crossed;
    const auto count = [&](int mass) {
        if (c.piece_of[mass] < 0)
            ++crossed[mass];
    };
    const Cell a = way.front(), b = way.back();
    for (const Cell& cell : way)
        count(m.at(cell.i, cell.j));
    for (std::size_t k = 1; crossed.empty() && k < way.size(); ++k) { // the light lies to the side of a step
        const Cell &p = way[k - 1], &q = way[k];
        const bool knight = std::abs(q.i - p.i) + std::abs(q.j - p.j) == 3;
        const Cell middle{p.i + (q.i - p.i) / 2, p.j + (q.j - p.j) / 2};
        for (const Cell& beside : knight ? std::array{middle, middle} : std::array{Cell{p.i, q.j}, Cell{q.i, p.j}})
            count(m.at(beside.i, beside.j));
    }
    bridge.light = std::max_element(crossed.begin(), crossed.end(), [](const auto& p, const auto& q) {
                       return p.second < q.second;
                   })->first;
    bridge.contrast_lstar = m.list[bridge.light].mean_lstar -
                            std::min(m.list[m.at(a.i, a.j)].mean_lstar, m.list[m.at(b.i, b.j)].mean_lstar);
}

} // namespace

std::vector<Bridge> bridges_between(const Masses& m, const Connected& c, double pixels_per_mm, const Connecting& how) {
    std::vector<Bridge> bridges;
    if (c.pieces.size() < 2 || how.bridges < 1 || c.pieces[1].area_mm2 < how.island_mm2)
        return bridges;
    Between between(m, c, how.island_mm2);
    const double longest_pixels = how.bridge_mm * pixels_per_mm;
    const auto met = between.meetings(longest_pixels);
    std::vector<bool> joined(c.pieces.size());
    joined[0] = true;
    double area_mm2 = c.pieces[0].area_mm2;
    while (static_cast<int>(bridges.size()) < how.bridges) {
        const std::pair<const std::pair<int, int>, Meeting>* best = nullptr;
        for (const auto& pair : met)
            if (joined[pair.first.first] != joined[pair.first.second] &&
                pair.second.length_pixels - 1 <= longest_pixels &&
                (best == nullptr || pair.second.length_pixels < best->second.length_pixels))
                best = &pair;
        if (best == nullptr)
            break;
        const auto [first, second] = best->first;
        const bool from_second = joined[first];
        Bridge bridge;
        bridge.island = from_second ? second : first, bridge.to = from_second ? first : second;
        bridge.length_mm = (best->second.length_pixels - 1) / pixels_per_mm; // less the halves of the outermost pixels
        const std::vector<Cell> way = between.way(best->second, from_second);
        for (const Cell& cell : way)
            bridge.way.push_back({(cell.i + 0.5) / pixels_per_mm, (cell.j + 0.5) / pixels_per_mm});
        look_at_light(m, c, way, bridge);
        joined[bridge.island] = true;
        area_mm2 += c.pieces[bridge.island].area_mm2;
        bridge.share_after = area_mm2 / c.area_mm2;
        bridges.push_back(std::move(bridge));
    }
    return bridges;
}

} // namespace tidemark::reference
