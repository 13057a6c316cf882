/// What each tool takes off a cell, by the stage it meets (wet, moist, damp, dry).
///
///   film      down to a rest that stays in the felt
///   loose     share of what lies loose on the felt
///   moisture  share of the front half's water above what the room's air leaves in it
///   loosens   share of what staining lets go of bound paint, (1 - staining) bound, that the tool frees first
///
/// Common practice gives the order: most while wet, then moist, then damp, hardly anything off a dry wash unless it is
/// scrubbed; tissue and sponge dry the paper more than a brush does. The numbers are from memory.
#pragma once
#include "plan/plan.h"

namespace tidemark::hand {

struct Takes {
    double film_left_m;
    double loose[4], moisture[4], loosens[4]; ///< 0 ... 1, by stage
    bool stirs; ///< hairs move over the paper; tissue and sponge are pressed on it
};

inline constexpr Takes lift_table[] = {
    // thirsty brush
    {8e-6, {0.50, 0.40, 0.25, 0.02}, {0.03, 0.05, 0.05, 0}, {0, 0, 0, 0}, true},
    // tissue
    {1e-6, {0.60, 0.50, 0.30, 0.02}, {0.15, 0.20, 0.20, 0}, {0, 0, 0, 0}, false},
    // sponge
    {2e-6, {0.60, 0.50, 0.30, 0.05}, {0.25, 0.35, 0.35, 0}, {0, 0, 0, 0}, false},
    // scrub, with a damp stiff brush: the water it brings it takes up again
    {8e-6, {0.80, 0.75, 0.65, 0.60}, {0.05, 0.10, 0.10, 0}, {0.80, 0.75, 0.65, 0.60}, true},
};
static_assert(static_cast<int>(plan::LiftTool::scrub) == 3, "a new tool needs its line here");
inline const Takes& takes(plan::LiftTool t) { return lift_table[static_cast<int>(t)]; }

constexpr double soften_takes = 0.15; ///< share of the film under a softening brush (from memory)

} // namespace tidemark::hand
