#include "judge/cut_detail.h"

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace tidemark::judge {

namespace {

/// Best ways to cover the places up to some place: what it costs with a last run of each kind, and where that begins.
struct Best {
    Costs cost;
    std::array<int, cut_kinds> begin;
    int kind() const { return static_cast<int>(std::min_element(cost.begin(), cost.end()) - cost.begin()); }
};

std::vector<Run> cut_row(const std::vector<Costs>& costs, double change, int least) {
    constexpr double never = std::numeric_limits<double>::infinity();
    const int n = static_cast<int>(costs.size());
    std::vector<Costs> sum(n + 1, Costs{}); // of the places before
    for (int k = 0; k < n; ++k)
        for (int w = 0; w < cut_kinds; ++w)
            sum[k + 1][w] = sum[k][w] + costs[k][w];
    std::vector<Best> best(n + 1);
    best[0].cost.fill(never), best[0].begin.fill(0);
    for (int end = 1; end <= n; ++end) {
        Best& b = best[end];
        b.cost.fill(never), b.begin.fill(0);
        const int from = end - std::min(least, n); // of a last run as short as it may be
        for (int w = 0; w < cut_kinds; ++w) {
            if (best[end - 1].cost[w] < never)
                b.cost[w] = best[end - 1].cost[w] + costs[end - 1][w], b.begin[w] = best[end - 1].begin[w];
            if (from < 0)
                continue;
            const Best& before = best[from];
            const double cheapest = from == 0 ? 0 : before.cost[before.kind()] + change;
            const double anew = cheapest + sum[end][w] - sum[from][w];
            if (anew < b.cost[w])
                b.cost[w] = anew, b.begin[w] = from;
        }
    }
    std::vector<Run> runs;
    for (int end = n; end > 0;) {
        const int w = best[end].kind(), begin = best[end].begin[w];
        runs.push_back({begin, end - begin, w});
        end = begin;
    }
    std::reverse(runs.begin(), runs.end());
    return runs;
}

} // namespace

std::vector<Run> cut_into_runs(const std::vector<Costs>& costs, double change, int least, bool closed) {
    std::vector<Run> runs = cut_row(costs, change, least);
    const int n = static_cast<int>(costs.size());
    if (!closed || runs.size() < 2)
        return runs;
    int seam = 0; // where to begin anew
    for (const Run& r : runs)
        if (std::min(r.begin, n - r.begin) > std::min(seam, n - seam))
            seam = r.begin;
    std::vector<Costs> turned(costs.begin() + seam, costs.end());
    turned.insert(turned.end(), costs.begin(), costs.begin() + seam);
    runs = cut_row(turned, change, least);
    if (runs.size() > 1 && runs.front().kind == runs.back().kind) {
        runs.front().begin = runs.back().begin, runs.front().count += runs.back().count;
        runs.pop_back();
    }
    for (Run& r : runs)
        r.begin = (r.begin + seam) % n;
    return runs;
}

} // namespace tidemark::judge
