#include "judge/judge_run.h"

namespace tidemark::judge {

Verdicts
judge_run(const plan::Plan& p, const sheet::Record& r, const grid::Field<float>& lstar, const sheet::Geometry& g) {
    const std::vector<Edge> edges = judge_edges(p, r, lstar, g);
    return {edges,
            judge_wants(p, r, edges),
            judge_windows(p, r),
            judge_values(p, lstar, g),
            judge_mixes(p, r),
            find_marks(p, r, lstar, g, edges)};
}

} // namespace tidemark::judge
