/// What would mend the wishes that were not met, each piece run before it is said; and when each wash can begin.
///
/// First the moments of every wish, on patches of the sheet (moments.h). From them and from the water of the two washes come
/// small changes (levers.h), tried on the same patches. Those on which the wish is met, or its edge comes at least twice as
/// near (in octaves of width), are played on the whole sheet to the end of the painting, on the run's own cells, at most six
/// of them: what helps there and loses no other wish is said, in order: by how many wishes it mends, then by how small it is.
/// What these last runs gave is what is said. Where a patch does not show the edge that the sheet has, its changes go to the
/// whole sheet untried, behind the others.
///
/// On wet paper a patch is a poor guide. So a wash that waits a minute or more, and whose edge is narrower than wanted, is
/// tried on the whole sheet without its wait; and where a moment mends a wish there, it is halved twice towards the planned one.
/// The moments of such a wish are those of the sheet, where patch and sheet differ (hold_to_sheet).
///
/// Errors: as play_branches().
#pragma once
#include "advice/trials.h"
#include "judge/judge_run.h"

#include <optional>

namespace tidemark::advice {

/// The run that was made of the plan, and how it was.
struct Rehearsed {
    const plan::Variants& plans;
    const sheet::Record& record;
    const judge::Verdicts& verdicts;
    double cell_m = 0.5e-3;
    int threads = 1;
};

struct Advised {
    std::vector<judge::Advice> advice; ///< the best first, at most five; none when all wishes are met, or nothing helps
    std::vector<judge::Moment> moments;
};

/// Nothing when `tell` said false.
std::optional<Advised> advise(const Rehearsed&, const Tell& tell);

} // namespace tidemark::advice
