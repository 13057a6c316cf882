#include "reference/masses.h"

#include "reference/masses_detail.h"

#include <limits>

namespace tidemark::reference {

Masses find_masses(const Groups& groups, const ValueMap& map) {
    const int w = groups.width, h = groups.height;
    std::vector<int> label(groups.group.size());
    JoinedLabels joined;
    const auto place = [w](int x, int y) { return static_cast<std::size_t>(y) * w + x; };
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            const bool left = x > 0 && groups.at(x - 1, y) == groups.at(x, y);
            const bool above = y > 0 && groups.at(x, y - 1) == groups.at(x, y);
            int& here = label[place(x, y)];
            if (left && above)
                joined.join(label[place(x - 1, y)], label[place(x, y - 1)]);
            here = left ? label[place(x - 1, y)] : above ? label[place(x, y - 1)] : joined.add();
        }
    std::vector<int> group_of;
    for (std::size_t p = 0; p < label.size(); ++p) {
        label[p] = joined.root(label[p]);
        if (static_cast<std::size_t>(label[p]) >= group_of.size())
            group_of.resize(label[p] + 1);
        group_of[label[p]] = groups.group[p];
    }
    return number_masses(w, h, label, group_of, map);
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
