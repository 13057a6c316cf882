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
    struct Shared {
        std::int64_t length = 0;
        std::int64_t steps = 0; ///< Σ |ΔL*| along it, in 1/1024: whole numbers add alike in any order
        double contrast() const { return static_cast<double>(steps) / (1024.0 * static_cast<double>(length)); }
    };
    struct Node {
        int group = 0;
        std::int64_t pixels = 0;
        std::map<int, Shared> borders;
        bool stays = false;
    };
    std::vector<Node> nodes;
    std::vector<int> into;
    std::set<std::pair<std::int64_t, int>> by_size;

    Graph(const Masses& m, const std::vector<std::uint8_t>& stays) : nodes(m.list.size()), into(m.list.size()) {
        std::iota(into.begin(), into.end(), 0);
        for (std::size_t i = 0; i < m.list.size(); ++i) {
            const Mass& mass = m.list[i];
            nodes[i].group = mass.group, nodes[i].pixels = mass.pixels;
            for (const Border& b : mass.neighbours)
                nodes[i].borders[b.mass] = {b.length, std::llround(1024 * b.contrast_lstar * static_cast<double>(b.length))};
            nodes[i].stays = i < stays.size() && stays[i];
            if (!nodes[i].stays)
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
        std::int64_t outline = 0;
        for (const auto& border : s.borders)
            outline += border.second.length;
        const auto better = [&](int n, int than) {
            const Shared &a = s.borders.at(n), &b = s.borders.at(than);
            const bool long_enough = 10 * a.length >= outline, other = 10 * b.length >= outline;
            if (long_enough != other)
                return long_enough;
            if (a.contrast() != b.contrast())
                return a.contrast() < b.contrast();
            return a.length != b.length ? a.length > b.length : nodes[n].pixels > nodes[than].pixels;
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
        for (const auto& [n, shared] : nodes[b].borders) {
            nodes[n].borders.erase(b);
            Shared& sum = nodes[a].borders[n];
            sum.length += shared.length, sum.steps += shared.steps;
            nodes[n].borders[a] = sum;
        }
        nodes[a].group = group;
        nodes[a].stays = nodes[a].stays || nodes[b].stays;
        nodes[a].pixels += nodes[b].pixels;
        nodes[b] = {};
        if (!nodes[a].stays)
            by_size.insert({nodes[a].pixels, a});
        return a;
    }

    Joined swallow(int small, int target) {
        const int group = nodes[target].group;
        const Shared& line = nodes[small].borders.at(target);
        const Joined done{small, target, nodes[small].pixels, line.length, line.contrast()};
        const auto beside = nodes[small].borders; // only these can come to touch their own group
        int joined = join(target, small, group);
        for (const auto& border : beside)
            if (const int n = border.first; n != target && nodes[n].group == group)
                joined = join(joined, n, group);
        return done;
    }

    Masses numbered(const Masses& m, const ValueMap& map) const {
        std::vector<int> group_of(m.list.size()), label(m.of.size()), to(m.list.size());
        for (std::size_t i = 0; i < group_of.size(); ++i)
            group_of[i] = nodes[i].group, to[i] = root(static_cast<int>(i));
        for (std::size_t p = 0; p < label.size(); ++p)
            label[p] = to[m.of[p]];
        return number_masses(m.width, m.height, label, group_of, map);
    }
};

} // namespace

Masses merged(const Masses& masses, const ValueMap& map, std::int64_t smallest_pixels, const std::vector<std::uint8_t>& stays,
              std::vector<Joined>* record) {
    Graph graph(masses, stays);
    while (!graph.by_size.empty() && graph.by_size.begin()->first < smallest_pixels) {
        const int small = graph.by_size.begin()->second;
        if (graph.nodes[small].borders.empty())
            break; // the only one
        const Joined done = graph.swallow(small, graph.target_of(small));
        if (record)
            record->push_back(done);
    }
    return graph.numbered(masses, map);
}

Masses merged_as(const Masses& masses, const ValueMap& map, std::span<const Joined> record) {
    Graph graph(masses, {});
    for (const Joined& j : record)
        graph.swallow(graph.root(j.mass), graph.root(j.into));
    return graph.numbered(masses, map);
}

} // namespace tidemark::reference
