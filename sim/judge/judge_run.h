/// Every verdict on one finished run.
#pragma once
#include "judge/advice.h"
#include "judge/edges.h"
#include "judge/marks.h"
#include "judge/mixes.h"
#include "judge/values.h"
#include "judge/wants.h"
#include "judge/windows.h"

#include <optional>

namespace tidemark::judge {

struct Verdicts {
    std::vector<Edge> edges;
    std::vector<WantVerdict> wants; ///< one for each of Plan::wants
    std::vector<Window> windows;
    Values values;
    std::vector<MixAmount> mixes;
    std::vector<Mark> marks;
    std::optional<std::vector<Advice>> advice{}; ///< the best first; nothing: changes were not tried
    std::vector<Moment> moments{};             ///< one for each of Plan::wants, with the advice
};

/// `lstar`: of the sheet as it will look dry, at least nx × ny.
Verdicts judge_run(const plan::Plan&, const sheet::Record&, const grid::Field<float>& lstar, const sheet::Geometry&);

} // namespace tidemark::judge
