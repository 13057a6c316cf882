/// How long each area stayed workable: when it lost its sheen, when its film, when its damp.
///
/// One row for every act that brought water, and one for the whole sheet (step -1): first water, and when all is dry.
/// An area has reached a stage when enough of it is in that stage or drier (sheet::stage_share). The search begins
/// when the hand has finished and ends with the next act on the same place (half of it or more). Times are minutes on
/// the plan's clock, interpolated between the samples of the record; NaN: not reached.
#pragma once
#include "plan/plan.h"
#include "sheet/record.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct Window {
    int step = -1; ///< -1: the sheet as a whole
    std::string area;
    double wet_from_min = 0; ///< the act's start
    double moist_min = 0;    ///< the mirror sheen is gone
    double damp_min = 0;     ///< no film left
    double dry_min = 0;
    double until_min = 0; ///< the next act on the same place, or the end of the run
};
std::vector<Window> judge_windows(const plan::Plan&, const sheet::Record&);

} // namespace tidemark::judge
