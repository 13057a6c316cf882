#include "reference/groups.h"

#include "grid/problem.h"
#include "grid/rows.h"
#include "reference/otsu.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace tidemark::reference {

namespace {

constexpr int levels = 1001;
constexpr float levels_per_lstar = 10;

int level_of(float lstar) {
    return std::clamp(static_cast<int>(std::floor(lstar * levels_per_lstar + 0.5f)), 0, levels - 1);
}

/// Counts per level, with the darkest and the lightest value met in each.
struct Histogram {
    std::vector<double> count = std::vector<double>(levels, 0.0);
    std::vector<float> darkest = std::vector<float>(levels, std::numeric_limits<float>::infinity());
    std::vector<float> lightest = std::vector<float>(levels, -std::numeric_limits<float>::infinity());
};

Histogram histogram_of(const ValueMap& map) {
    Histogram h;
    for (const float lstar : map.lstar) {
        const int v = level_of(lstar);
        h.count[v] += 1;
        h.darkest[v] = std::min(h.darkest[v], lstar);
        h.lightest[v] = std::max(h.lightest[v], lstar);
    }
    return h;
}

/// Halfway up the gap above a cut. Of two neighbouring floats the upper one, as a group begins at its threshold.
float threshold_above(const Histogram& h, int cut) {
    int next = cut + 1;
    while (h.count[next] == 0)
        ++next; // a cut is never the last filled level
    const float below = h.lightest[cut], above = h.darkest[next];
    const float middle = 0.5f * (below + above);
    return middle > below ? middle : above;
}

} // namespace

Groups group_values(const ValueMap& map, int count) {
    if (count < min_groups || count > max_groups)
        throw grid::InternalError("group_values: " + std::to_string(count) + " groups; allowed: 2 to 7");
    const Histogram h = histogram_of(map);
    std::vector<float> thresholds;
    for (const int cut : otsu_cuts(h.count, count))
        thresholds.push_back(threshold_above(h, cut));
    return group_with(map, thresholds);
}

Groups group_with(const ValueMap& map, std::span<const float> thresholds) {
    Groups g;
    g.count = static_cast<int>(thresholds.size()) + 1;
    g.thresholds.assign(thresholds.begin(), thresholds.end());
    g.width = map.width, g.height = map.height;
    g.group.resize(map.lstar.size());
    std::vector<std::vector<double>> sums(map.height, std::vector<double>(2 * g.count, 0.0));
    grid::for_rows(map.height, static_cast<long>(map.lstar.size()), [&](int y) {
        for (int x = 0; x < map.width; ++x) {
            const float lstar = map.at(x, y);
            const auto place = std::upper_bound(g.thresholds.begin(), g.thresholds.end(), lstar);
            const auto k = static_cast<std::size_t>(place - g.thresholds.begin());
            g.group[static_cast<std::size_t>(y) * map.width + x] = static_cast<std::uint8_t>(k);
            sums[y][2 * k] += 1, sums[y][2 * k + 1] += lstar;
        }
    });
    for (int k = 0; k < g.count; ++k) {
        double pixels = 0, sum = 0;
        for (const auto& row : sums)
            pixels += row[2 * k], sum += row[2 * k + 1];
        g.pixels.push_back(static_cast<std::int64_t>(pixels));
        g.mean_lstar.push_back(pixels > 0 ? static_cast<float>(sum / pixels)
                                          : std::numeric_limits<float>::quiet_NaN());
    }
    return g;
}

std::string group_word(int group, int count) {
    if (count != 2 && count != 3)
        return "group-" + std::to_string(group);
    return group == 0 ? "darks" : group + 1 == count ? "lights" : "midtones";
}

} // namespace tidemark::reference
