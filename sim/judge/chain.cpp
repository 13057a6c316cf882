#include "judge/chain_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <unordered_map>

namespace tidemark::judge {

namespace {

/// A crossing lies on the line from a cell centre to its right (0) or lower (1) neighbour; each is shared by at most
/// two squares, so it has at most two links.
struct Crossings {
    const grid::Field<float>& field;
    std::unordered_map<std::int64_t, std::array<std::int64_t, 2>> links;
    std::vector<std::int64_t> order; ///< as met, so that the result does not depend on the map

    std::int64_t id(int i, int j, int down) const {
        return 2 * (static_cast<std::int64_t>(j) * field.nx() + i) + down;
    }
    void half_link(std::int64_t from, std::int64_t to) {
        auto [it, is_new] = links.try_emplace(from, std::array<std::int64_t, 2>{-1, -1});
        if (is_new)
            order.push_back(from);
        it->second[it->second[0] < 0 ? 0 : 1] = to;
    }
    void link(std::int64_t a, std::int64_t b) { half_link(a, b), half_link(b, a); }
    ChainPoint point(std::int64_t crossing) const {
        const int down = static_cast<int>(crossing % 2);
        const int i = static_cast<int>(crossing / 2 % field.nx()), j = static_cast<int>(crossing / 2 / field.nx());
        const double a = field(i, j), b = down ? field(i, j + 1) : field(i + 1, j);
        const double t = a == b ? 0.5 : std::clamp((plan::half_covered - a) / (b - a), 0.0, 1.0);
        return down ? ChainPoint{static_cast<double>(i), j + t} : ChainPoint{i + t, static_cast<double>(j)};
    }
};

void cut_square(Crossings& c, int i, int j) {
    const auto in = [&](int a, int b) { return c.field(i + a, j + b) >= plan::half_covered; };
    const bool nw = in(0, 0), ne = in(1, 0), sw = in(0, 1), se = in(1, 1);
    const std::int64_t top = c.id(i, j, 0), bottom = c.id(i, j + 1, 0), left = c.id(i, j, 1),
                       right = c.id(i + 1, j, 1);
    std::int64_t cut[4];
    int n = 0;
    if (nw != ne)
        cut[n++] = top;
    if (ne != se)
        cut[n++] = right;
    if (sw != se)
        cut[n++] = bottom;
    if (nw != sw)
        cut[n++] = left;
    if (n == 2)
        c.link(cut[0], cut[1]);
    if (n != 4)
        return;
    const float mean = 0.25f * (c.field(i, j) + c.field(i + 1, j) + c.field(i, j + 1) + c.field(i + 1, j + 1));
    const bool nw_joins_se = nw == (mean >= plan::half_covered);
    c.link(top, nw_joins_se ? right : left);
    c.link(bottom, nw_joins_se ? left : right);
}

Chain follow(const Crossings& c, std::int64_t start, std::unordered_map<std::int64_t, bool>& used) {
    Chain chain;
    for (std::int64_t at = start; at >= 0 && !used[at];) {
        used[at] = true;
        chain.points.push_back(c.point(at));
        const auto& next = c.links.at(at);
        const auto free = [&](std::int64_t id) { return id >= 0 && !used[id]; };
        at = free(next[0]) ? next[0] : free(next[1]) ? next[1] : -1;
    }
    return chain;
}

} // namespace

std::vector<Chain> half_level_chains(const grid::Field<float>& field) {
    Crossings c{field, {}, {}};
    for (int j = 0; j + 1 < field.ny(); ++j)
        for (int i = 0; i + 1 < field.nx(); ++i)
            cut_square(c, i, j);
    std::vector<Chain> chains;
    std::unordered_map<std::int64_t, bool> used;
    for (const bool ends_first : {true, false})
        for (const std::int64_t id : c.order) {
            if (used[id] || (ends_first && c.links.at(id)[1] >= 0))
                continue;
            Chain chain = follow(c, id, used);
            chain.closed = !ends_first && chain.points.size() > 2;
            if (chain.points.size() > 1)
                chains.push_back(std::move(chain));
        }
    return chains;
}

} // namespace tidemark::judge
