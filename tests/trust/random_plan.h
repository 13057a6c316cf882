/// A plan that nobody wrote: valid, small, and the same for the same seed everywhere.
///
/// Every kind of act, start, area, board, paper and room comes up; numbers lie in their ranges' everyday part, now and then
/// at an end of it. Even-handed plans are level and hold only what a mirror can follow: no dice of the hand's (drops,
/// mist), and what a hand does in rows or along an outline it does within a fifth of a second, so that where it began is of no
/// account.
#pragma once
#include <cstdint>
#include <string>

#include "materials/presets.h"
#include "plan/plan.h"

namespace tidemark::trust {

struct RandomPlan {
    std::string text; ///< of the plan file
    bool even_handed = false;
    double cell_mm = 1; ///< to play it with: whole cells on the sheet
};
RandomPlan random_plan(std::uint64_t seed, const materials::Presets&);

plan::Plan mirrored(plan::Plan); ///< left and right exchanged
plan::Plan turned(plan::Plan);   ///< by a right angle, clockwise as the painter looks at it

} // namespace tidemark::trust
