/// In which order the one hand takes the steps, and when.
///
/// A step that has an `at` is ready at that time; one that is `after` another, when that one is finished and the wait
/// is over; one with a `when`, or without a start of its own, as soon as the step before it in the file is finished
/// (and then its stage is waited for). A step begins when it is ready and the hand is free; of several, the one that
/// stands first in the plan. Waiting, for a stage or in a dry step, leaves the hand free.
#pragma once
#include "plan/plan.h"

#include <vector>

namespace tidemark::plan {

/// The step that must be finished before step `index` is ready; -1 for `at`, and for the first step.
int predecessor(const std::vector<Step>&, int index);

/// Steps that wait on each other, or on themselves: each ring once, from its first step on. Empty for a plan that
/// read_plan returned.
std::vector<std::vector<int>> waiting_rings(const std::vector<Step>&);

/// The step to take next, -1 when all are finished, and when it can begin. `end_s`: when each step ended; negative,
/// not yet. `hand_free_s`: when the hand is.
struct Next {
    int step = -1;
    double start_s = 0;
};
Next next_step(const std::vector<Step>&, const std::vector<double>& end_s, double hand_free_s);

/// What an area covers of the sheet, m²: of a mask the pixels of at least half white, of any other the sum of its
/// coverage in some 250 000 cells (of 0.5 mm at least); whole_sheet gives the sheet's.
double area_m2(const Plan&, int area);

} // namespace tidemark::plan
