#include "reference/branches_detail.h"

#include "reference/masses_detail.h"

#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

namespace tidemark::reference {

namespace {

/// Arms as a graph that shrinks: an arm joins the one it comes from. Numbers still rise along every way, since what is
/// joined comes from one arm only.
struct Graph {
    struct Node {
        std::set<int> from, to;
        double area = 0;
        int first_band = 0, last_band = 0;
    };
    std::vector<Node> nodes;
    std::vector<int> into;
    std::set<std::pair<double, int>> small; ///< to be looked at
    double smallest;
    int fewest_bands;

    Graph(const Arms& arms, double smallest_area, int fewest)
        : nodes(arms.list.size()), into(arms.list.size()), smallest(smallest_area), fewest_bands(fewest) {
        std::iota(into.begin(), into.end(), 0);
        for (std::size_t k = 0; k < nodes.size(); ++k) {
            nodes[k].area = arms.list[k].area;
            nodes[k].first_band = arms.first_band[k], nodes[k].last_band = arms.last_band[k];
            for (const int f : arms.list[k].from)
                nodes[k].from.insert(f), nodes[f].to.insert(static_cast<int>(k));
            look_at(static_cast<int>(k));
        }
    }

    void look_at(int k) {
        if (nodes[k].area < smallest || nodes[k].last_band - nodes[k].first_band + 1 < fewest_bands)
            small.insert({nodes[k].area, k});
    }
    void join(int k, int f) {
        small.erase({nodes[f].area, f});
        nodes[f].area += nodes[k].area;
        nodes[f].last_band = std::max(nodes[f].last_band, nodes[k].last_band);
        nodes[f].to.erase(k);
        for (const int t : nodes[k].to) {
            nodes[t].from.erase(k), nodes[t].from.insert(f);
            nodes[f].to.insert(t);
            look_at(t); // it may now come from one only
        }
        nodes[k] = {};
        into[k] = f;
        look_at(f);
    }
    /// Goes on without a split or a join: one arm.
    bool join_if_one(int k) {
        if (nodes[k].from.size() != 1)
            return false;
        const int f = *nodes[k].from.begin();
        if (nodes[f].to.size() != 1)
            return false;
        join(k, f);
        return true;
    }
    void join_chain(int f) {
        while (nodes[f].to.size() == 1 && join_if_one(*nodes[f].to.begin())) {
        }
        join_if_one(f);
    }
    int root(int k) const {
        while (into[k] != k)
            k = into[k];
        return k;
    }
};

int add_arm(Arms& arms, int first_band, int last_band) {
    arms.list.emplace_back();
    arms.first_band.push_back(first_band), arms.last_band.push_back(last_band);
    return static_cast<int>(arms.list.size()) - 1;
}

} // namespace

Arms parts_of_bands(const grid::Geodesic& inside,
                    std::span<const grid::Cell> order,
                    int width,
                    int height,
                    const std::vector<double>& area,
                    double band) {
    const auto at = [width](int i, int j) { return static_cast<std::size_t>(j) * width + i; };
    std::vector<int> band_of(at(0, height), -1), label(at(0, height), -1);
    for (const grid::Cell& c : order)
        band_of[at(c.i, c.j)] = static_cast<int>(inside.distance(c) / band);
    JoinedLabels joined;
    std::vector<std::pair<int, int>> touching; // labels; the farther band first
    for (int j = 0; j < height; ++j)
        for (int i = 0; i < width; ++i) {
            const std::size_t here = at(i, j);
            if (band_of[here] < 0)
                continue;
            std::size_t beside[4]; // those that have been here before
            int n = 0;
            if (i > 0)
                beside[n++] = here - 1;
            for (int k = std::max(0, i - 1); j > 0 && k <= std::min(width - 1, i + 1); ++k)
                beside[n++] = at(k, j - 1);
            for (int k = 0; k < n; ++k)
                if (band_of[beside[k]] == band_of[here]) {
                    if (label[here] < 0)
                        label[here] = label[beside[k]];
                    else if (label[beside[k]] != label[here])
                        joined.join(label[here], label[beside[k]]);
                }
            if (label[here] < 0)
                label[here] = joined.add();
            for (int k = 0; k < n; ++k)
                if (const int there = band_of[beside[k]]; there >= 0 && there != band_of[here]) {
                    std::pair pair{label[here], label[beside[k]]};
                    if (there > band_of[here])
                        std::swap(pair.first, pair.second);
                    if (touching.empty() || touching.back() != pair)
                        touching.push_back(pair);
                }
        }
    Arms arms;
    arms.of.assign(label.size(), -1);
    std::vector<int> number(label.size(), -1); // roots are met in the order of their first cells
    for (const grid::Cell& c : order) {
        int& n = number[joined.root(label[at(c.i, c.j)])];
        if (n < 0)
            n = add_arm(arms, band_of[at(c.i, c.j)], band_of[at(c.i, c.j)]);
        arms.of[at(c.i, c.j)] = n;
        arms.list[n].area += area[at(c.i, c.j)];
    }
    for (auto& [here, there] : touching)
        here = number[joined.root(here)], there = number[joined.root(there)];
    std::sort(touching.begin(), touching.end());
    touching.erase(std::unique(touching.begin(), touching.end()), touching.end());
    for (const auto& [here, there] : touching)
        arms.list[here].from.push_back(there);
    return arms;
}

Arms joined_up(const Arms& parts, double smallest, int fewest_bands) {
    Graph graph(parts, smallest, fewest_bands);
    const int n = static_cast<int>(parts.list.size());
    for (int k = 0; k < n; ++k)
        graph.join_if_one(k);
    while (!graph.small.empty()) {
        const int k = graph.small.begin()->second;
        graph.small.erase(graph.small.begin());
        if (graph.nodes[k].from.size() != 1)
            continue; // looked at again when that changes
        const int f = *graph.nodes[k].from.begin();
        graph.join(k, f);
        graph.join_chain(f);
    }
    Arms arms;
    arms.of = parts.of;
    std::vector<int> number(parts.list.size(), -1);
    for (int k = 0; k < n; ++k)
        if (graph.root(k) == k) {
            const Graph::Node& node = graph.nodes[k];
            number[k] = add_arm(arms, node.first_band, node.last_band);
            arms.list.back().area = node.area;
            for (const int f : node.from)
                arms.list.back().from.push_back(number[f]);
        }
    for (int& a : arms.of)
        if (a >= 0)
            a = number[graph.root(a)];
    return arms;
}

} // namespace tidemark::reference
