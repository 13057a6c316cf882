#include "reference/masses.h"

#include "reference/masses_detail.h"

#include <limits>

namespace tidemark::reference {

Masses find_masses(const Groups& groups, const ValueMap& map) {
    const std::vector<int> label = hanging_together(
        groups.width, groups.height, [&](std::size_t p, std::size_t q) { return groups.group[p] == groups.group[q]; });
    const std::vector<int> group_of = by_label(label, [&](std::size_t p) { return groups.group[p]; });
    return number_masses(groups.width, groups.height, label, group_of, map);
}

Groups groups_of(const Masses& masses, const ValueMap& map, const Groups& before) {
    Groups g = before;
    std::vector<double> sum(g.count, 0.0);
    g.pixels.assign(g.count, 0);
    for (std::size_t p = 0; p < masses.of.size(); ++p) {
        const int k = masses.list[masses.of[p]].group;
        g.group[p] = static_cast<std::uint8_t>(k);
        g.pixels[k] += 1;
        sum[k] += map.lstar[p];
    }
    for (int k = 0; k < g.count; ++k)
        g.mean_lstar[k] = g.pixels[k] > 0 ? static_cast<float>(sum[k] / static_cast<double>(g.pixels[k]))
                                          : std::numeric_limits<float>::quiet_NaN();
    return g;
}

} // namespace tidemark::reference
