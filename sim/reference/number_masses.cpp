#include "reference/masses_detail.h"

#include <algorithm>
#include <cstdint>

namespace tidemark::reference {

namespace {

struct Tally {
    int group = 0;
    std::int64_t pixels = 0;
    double lstar = 0, x = 0, y = 0;
    std::size_t first = 0; ///< its first pixel, reading from the top left
};

/// Mass number by label: light groups before dark, large before small, first met before later.
std::vector<int> numbers(const std::vector<Tally>& tally, std::vector<int>& order) {
    for (std::size_t l = 0; l < tally.size(); ++l)
        if (tally[l].pixels > 0)
            order.push_back(static_cast<int>(l));
    std::sort(order.begin(), order.end(), [&](int a, int b) {
        const Tally &p = tally[a], &q = tally[b];
        if (p.group != q.group)
            return p.group > q.group;
        if (p.pixels != q.pixels)
            return p.pixels > q.pixels;
        return p.first < q.first;
    });
    std::vector<int> number(tally.size(), -1);
    for (std::size_t n = 0; n < order.size(); ++n)
        number[order[n]] = static_cast<int>(n);
    return number;
}

/// Every pixel side between two masses as one key a pair and direction; sorted, equal keys are a border's length.
void find_borders(Masses& m) {
    std::vector<std::uint64_t> sides;
    const auto side = [&](int a, int b) {
        if (a == b)
            return;
        sides.push_back(static_cast<std::uint64_t>(a) << 32 | static_cast<std::uint32_t>(b));
        sides.push_back(static_cast<std::uint64_t>(b) << 32 | static_cast<std::uint32_t>(a));
    };
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            if (x > 0)
                side(m.at(x - 1, y), m.at(x, y));
            if (y > 0)
                side(m.at(x, y - 1), m.at(x, y));
        }
    std::sort(sides.begin(), sides.end());
    for (std::size_t i = 0, j = 0; i < sides.size(); i = j) {
        while (j < sides.size() && sides[j] == sides[i])
            ++j;
        m.list[sides[i] >> 32].neighbours.push_back(
            {static_cast<int>(sides[i] & 0xffffffffu), static_cast<std::int64_t>(j - i)});
    }
}

} // namespace

Masses number_masses(
    int width, int height, const std::vector<int>& label, const std::vector<int>& group_of, const ValueMap& map) {
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
    std::vector<int> order;
    const std::vector<int> number = numbers(tally, order);
    Masses m{width, height, std::vector<int>(label.size()), {}};
    for (std::size_t p = 0; p < label.size(); ++p)
        m.of[p] = number[label[p]];
    for (const int l : order) {
        const Tally& t = tally[l];
        const auto n = static_cast<double>(t.pixels);
        m.list.push_back({t.group, t.pixels, t.lstar / n, t.x / n, t.y / n, {}});
    }
    find_borders(m);
    return m;
}

} // namespace tidemark::reference
