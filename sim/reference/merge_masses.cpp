#include "reference/masses_detail.h"

#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace tidemark::reference {

namespace {

/// Masses as a graph that shrinks: what joins is emptied, and into[] tells where it went.
struct Graph {
    struct Node {
        int group = 0;
        std::int64_t pixels = 0;
        double lstar_sum = 0;
        std::map<int, std::int64_t> borders;
        double mean() const { return lstar_sum / static_cast<double>(pixels); }
    };
    std::vector<Node> nodes;
    std::vector<int> into;
    std::set<std::pair<std::int64_t, int>> by_size;

    explicit Graph(const Masses& m) : nodes(m.list.size()), into(m.list.size()) {
        std::iota(into.begin(), into.end(), 0);
        for (std::size_t i = 0; i < m.list.size(); ++i) {
            const Mass& mass = m.list[i];
            nodes[i] = {mass.group, mass.pixels, mass.mean_lstar * static_cast<double>(mass.pixels), {}};
            for (const Border& b : mass.neighbours)
                nodes[i].borders[b.mass] = b.length;
            by_size.insert({mass.pixels, static_cast<int>(i)});
        }
    }

    int root(int i) const {
        while (into[i] != i)
            i = into[i];
        return i;
    }

    /// The neighbour that swallows a small mass.
    int target_of(int small) const {
        const Node& s = nodes[small];
        const auto better = [&](int n, int than) {
            const std::int64_t length = s.borders.at(n), longest = s.borders.at(than);
            if (length != longest)
                return length > longest;
            const double far = std::fabs(nodes[n].mean() - s.mean()), near = std::fabs(nodes[than].mean() - s.mean());
            return far != near ? far < near : nodes[n].pixels > nodes[than].pixels;
        };
        int best = s.borders.begin()->first;
        for (const auto& border : s.borders)
            if (better(border.first, best))
                best = border.first;
        return best;
    }

    /// The one with fewer borders is emptied into the other, so a large mass is never walked round for a crumb.
    int join(int a, int b, int group) {
        by_size.erase({nodes[a].pixels, a}), by_size.erase({nodes[b].pixels, b});
        if (nodes[a].borders.size() < nodes[b].borders.size())
            std::swap(a, b);
        into[b] = a;
        nodes[a].borders.erase(b), nodes[b].borders.erase(a);
        for (const auto& [n, length] : nodes[b].borders) {
            nodes[n].borders.erase(b);
            nodes[n].borders[a] = nodes[a].borders[n] += length;
        }
        nodes[a].group = group;
        nodes[a].pixels += nodes[b].pixels;
        nodes[a].lstar_sum += nodes[b].lstar_sum;
        nodes[b] = {};
        by_size.insert({nodes[a].pixels, a});
        return a;
    }

    void swallow(int small) {
        const int target = target_of(small), group = nodes[target].group;
        const auto beside = nodes[small].borders; // only these can come to touch their own group
        int joined = join(target, small, group);
        for (const auto& border : beside)
            if (const int n = border.first; n != target && nodes[n].group == group)
                joined = join(joined, n, group);
    }
};

} // namespace

Masses merged(const Masses& masses, const ValueMap& map, std::int64_t smallest_pixels) {
    Graph graph(masses);
    while (graph.by_size.size() > 1 && graph.by_size.begin()->first < smallest_pixels)
        graph.swallow(graph.by_size.begin()->second);
    std::vector<int> group_of(masses.list.size()), label(masses.of.size());
    for (std::size_t i = 0; i < group_of.size(); ++i)
        group_of[i] = graph.nodes[i].group;
    for (std::size_t p = 0; p < label.size(); ++p)
        label[p] = graph.root(masses.of[p]);
    return number_masses(masses.width, masses.height, label, group_of, map);
}

} // namespace tidemark::reference
