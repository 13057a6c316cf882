/// What became of every wish for an edge: the row that answers it, or why none does. No wish is left out.
#pragma once
#include "judge/edges.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct WantVerdict {
    int edge = -1; ///< index into the edges; of the two washes at an edge the later one made it what it is
    bool met = false;
    std::string reason; ///< empty when judged; else "\"hills\" was not painted", ...
};

/// One verdict for each of Plan::wants, in their order; `edges` as judge_edges() gave them with the same rules.
std::vector<WantVerdict>
judge_wants(const plan::Plan&, const sheet::Record&, const std::vector<Edge>& edges, const EdgeRules& = {});

} // namespace tidemark::judge
