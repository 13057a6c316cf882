#include "reference/masses_detail.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace tidemark::reference {

namespace {

struct Tally {
    int group = 0;
    std::int64_t pixels = 0;
    double lstar = 0, x = 0, y = 0;
    std::size_t first = 0; ///< its first pixel, reading from the top left
};

/// The labels in use, as masses are numbered: light groups before dark, large before small, first met before later; or
/// by the numbers that they have already.
std::vector<int> in_order(const std::vector<Tally>& tally, const std::vector<int>& number_of) {
    std::vector<int> order;
    for (std::size_t l = 0; l < tally.size(); ++l)
        if (tally[l].pixels > 0)
            order.push_back(static_cast<int>(l));
    std::sort(order.begin(), order.end(), [&](int a, int b) {
        if (!number_of.empty())
            return number_of[a] < number_of[b];
        const Tally &p = tally[a], &q = tally[b];
        if (p.group != q.group)
            return p.group > q.group;
        if (p.pixels != q.pixels)
            return p.pixels > q.pixels;
        return p.first < q.first;
    });
    return order;
}

/// A pixel side between two masses: one key a pair and direction, with the step across it.
struct Side {
    std::uint64_t key = 0;
    std::int32_t step = 0; ///< |ΔL*| in 1/1024: whole numbers add alike in any order
    bool operator<(const Side& other) const { return key < other.key; }
};

std::int32_t step_between(const ValueMap& map, int xa, int ya, int xb, int yb) {
    const auto at = [&](int x, int y) { return map.at(std::clamp(x, 0, map.width - 1), std::clamp(y, 0, map.height - 1)); };
    return static_cast<std::int32_t>(std::lround(1024 * std::fabs(at(xa, ya) - at(xb, yb))));
}

/// Sorted, equal keys are a border.
void find_borders(Masses& m, const ValueMap& map) {
    std::vector<Side> sides;
    const auto side = [&](int a, int b, std::int32_t step) {
        sides.push_back({static_cast<std::uint64_t>(a) << 32 | static_cast<std::uint32_t>(b), step});
        sides.push_back({static_cast<std::uint64_t>(b) << 32 | static_cast<std::uint32_t>(a), step});
    };
    constexpr int far = border_reach_pixels - 1;
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const int here = m.at(x, y);
            if (x > 0 && m.at(x - 1, y) != here)
                side(m.at(x - 1, y), here, step_between(map, x - 1 - far, y, x + far, y));
            if (y > 0 && m.at(x, y - 1) != here)
                side(m.at(x, y - 1), here, step_between(map, x, y - 1 - far, x, y + far));
        }
    std::sort(sides.begin(), sides.end());
    for (std::size_t i = 0, j = 0; i < sides.size(); i = j) {
        std::int64_t sum = 0;
        for (; j < sides.size() && sides[j].key == sides[i].key; ++j)
            sum += sides[j].step;
        const auto length = static_cast<std::int64_t>(j - i);
        m.list[sides[i].key >> 32].neighbours.push_back({static_cast<int>(sides[i].key & 0xffffffffu), length,
                                                         static_cast<double>(sum) / (1024.0 * static_cast<double>(length))});
    }
}

} // namespace

Masses number_masses(int width, int height, const std::vector<int>& label, const std::vector<int>& group_of,
                     const ValueMap& map, const std::vector<int>& number_of) {
    std::vector<Tally> tally(group_of.size());
    for (std::size_t p = 0; p < label.size(); ++p) {
        Tally& t = tally[label[p]];
        if (t.pixels == 0)
            t.first = p, t.group = group_of[label[p]];
        t.pixels += 1;
        t.lstar += map.lstar[p];
        t.x += static_cast<double>(p % width) + 0.5;
        t.y += static_cast<double>(p / width) + 0.5;
    }
    Masses m{width, height, std::vector<int>(label.size()), {}};
    std::vector<int> index(tally.size(), -1);
    for (const int l : in_order(tally, number_of)) {
        const Tally& t = tally[l];
        const auto n = static_cast<double>(t.pixels);
        index[l] = static_cast<int>(m.list.size());
        m.list.push_back({t.group, t.pixels, t.lstar / n, t.x / n, t.y / n, {}, number_of.empty() ? index[l] + 1 : number_of[l]});
    }
    for (std::size_t p = 0; p < label.size(); ++p)
        m.of[p] = index[label[p]];
    find_borders(m, map);
    return m;
}

} // namespace tidemark::reference
