#include "reference/arms.h"

#include "reference/masses_detail.h"

#include <algorithm>
#include <map>

namespace tidemark::reference {

namespace {

/// What can be reached through each arm alone.
struct Held {
    std::vector<int> by;                 ///< the arm that all ways to it lead through last; -1 of the first
    std::vector<std::vector<int>> holds; ///< the other way round, rising
    std::vector<double> area;            ///< of the arm and all it holds

    explicit Held(const std::vector<Arm>& arms) : by(arms.size(), -1), holds(arms.size()) {
        for (const Arm& a : arms)
            area.push_back(a.area);
        for (std::size_t k = 1; k < arms.size(); ++k) {
            int common = arms[k].from.front();
            for (const int f : arms[k].from)
                common = meet(common, f);
            by[k] = common;
            holds[common].push_back(static_cast<int>(k));
        }
        for (std::size_t k = arms.size(); k-- > 1;)
            area[by[k]] += area[k];
    }
    /// Numbers rise from what holds to what is held.
    int meet(int a, int b) const {
        while (a != b)
            (a > b ? a : b) = by[a > b ? a : b];
        return a;
    }
    /// The one among those that `holder` holds in which `arm` lies.
    int part_of(int arm, int holder) const {
        while (by[arm] != holder)
            arm = by[arm];
        return arm;
    }
};

/// What `holder` holds, as groups of arms that meet again, the smallest group first.
std::vector<std::vector<int>> groups_held(const std::vector<Arm>& arms, const Held& held, int holder) {
    const std::vector<int>& parts = held.holds[holder];
    JoinedLabels joined;
    std::map<int, int> label;
    for (const int p : parts)
        label[p] = joined.add();
    for (const int p : parts)
        for (const int f : arms[p].from)
            if (f != holder)
                joined.join(label[p], label[held.part_of(f, holder)]);
    std::map<int, std::vector<int>> by_root;
    for (const int p : parts)
        by_root[joined.root(label[p])].push_back(p);
    std::vector<std::pair<double, std::vector<int>>> sized;
    for (auto& [root, group] : by_root) {
        double area = 0;
        for (const int p : group)
            area += held.area[p];
        sized.push_back({area, std::move(group)});
    }
    std::stable_sort(sized.begin(), sized.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::vector<int>> groups;
    for (auto& [area, group] : sized)
        groups.push_back(std::move(group));
    return groups;
}

/// Of a group, the next: all it comes from is painted, and it holds least.
std::size_t next_of(
    const std::vector<int>& group, const std::vector<Arm>& arms, const Held& held, const std::vector<bool>& painted) {
    std::size_t best = group.size();
    for (std::size_t k = 0; k < group.size(); ++k) {
        const std::vector<int>& from = arms[group[k]].from;
        if (std::all_of(from.begin(), from.end(), [&](int f) { return painted[f]; }) &&
            (best == group.size() || held.area[group[k]] < held.area[group[best]]))
            best = k;
    }
    return best;
}

} // namespace

std::vector<int> shortest_first(const std::vector<Arm>& arms) {
    if (arms.empty())
        return {};
    const Held held(arms);
    std::vector<int> order;
    std::vector<bool> painted(arms.size());
    std::vector<std::vector<int>> waiting; // groups, the next one last
    const auto paint = [&](int arm) {
        order.push_back(arm);
        painted[arm] = true;
        std::vector<std::vector<int>> groups = groups_held(arms, held, arm);
        for (std::size_t g = groups.size(); g-- > 0;)
            waiting.push_back(std::move(groups[g]));
    };
    paint(0);
    while (!waiting.empty()) {
        std::vector<int>& group = waiting.back();
        const std::size_t k = next_of(group, arms, held, painted);
        const int arm = group[k];
        group.erase(group.begin() + static_cast<std::ptrdiff_t>(k));
        if (group.empty())
            waiting.pop_back();
        paint(arm);
    }
    return order;
}

std::vector<double> waited(const std::vector<Arm>& arms, const std::vector<int>& order) {
    std::vector<double> wait(arms.size()), end(arms.size());
    double now = 0;
    for (const int arm : order) {
        for (const int f : arms[arm].from)
            wait[arm] = std::max(wait[arm], now - end[f]);
        now += arms[arm].area;
        end[arm] = now;
    }
    return wait;
}

} // namespace tidemark::reference
