/// How dark each mix dries by plan, before anything is run, and whether that is what the reference has there.
///
/// Paint counts as staying where it is laid, as deep as the plan says; acts in the order that is given. Film or wet
/// paint times the mix's share of pigment is what lies on the sheet, as the hand lays it (hand/touch.h); a charge or a
/// mist is spread evenly over its area. Each act is a layer of its own over the earlier ones (colour/layer.h), a quarter,
/// half or three quarters of one where a soft edge covers as much of a cell. An act's values are means over its area
/// without what a later act covers or lifts; when that leaves less than `least_open_share`, over all of it, and nothing
/// is compared. A cell counts by the square of its coverage: at an edge it also holds what lies beside it.
/// Resist keeps paint off until it is uncovered.
///
///   wet      under the water of its film, on paper whose pores are full: shortly before the sheen goes
///   factor   0.2 to 8 times the load, by bisection; of several that meet the reference, the nearest to 1
///
/// Range   at most 60 000 cells, so that a millimetre of outline is a guess; of the grounds below one act the 256 that
///         have most of it. Loads as in sheet/look.h.
/// Left out: what runs, pools, bleeds, granulates, is lifted or loosened. Of a dragged brush: how much it touches, so
/// its values are those of the touches; nothing is compared and it counts as no ground. Spatter altogether.
#pragma once
#include "plan/plan.h"
#include "reference/value_map.h"

#include <vector>

namespace tidemark::judge {

constexpr double least_open_share = 0.1, close_L = 2, least_factor = 0.2, most_factor = 8; ///< this program's own choice

enum class Asks {
    nothing,      ///< no reference, nothing left to see, or a broken stroke
    close,        ///< within close_L of the reference
    other_load,   ///< `factor` times the pigment
    never_darker, ///< no load is as dark as the reference: `darkest_L` is all
    never_lighter ///< no load is as light: `lightest_L` is all
};
struct Strength {
    int step = 0, mix = 0;
    double dry_L = 0, wet_L = 0;
    double below_L = 0;         ///< dry, before this act
    std::vector<int> over;      ///< earlier steps that lie below more than half of it, top one first; at most three a place
    bool on_paper = false;      ///< more than half of it is bare paper so far
    double open_share = 0;      ///< of its area that no later act covers, 0 ... 1
    double reference_L = 0;     ///< mean of it there; NaN when nothing is compared
    Asks asks = Asks::nothing;
    double factor = 0;          ///< only with other_load
    bool second_pass = false;   ///< with other_load: the same again over it comes within close_L
    double darkest_L = 0, lightest_L = 0; ///< of all factors; 0 when nothing is compared
};

/// One for each act that lays pigment, in `order` (step indices, plan/timetable.h).
std::vector<Strength> judge_strength(const plan::Plan&, const std::vector<int>& order);

/// L* of the dry sheet with every act of `order` laid flat, as above: the masses as they are planned. Dragged brush and
/// spatter are left out, lifts change nothing.
reference::ValueMap planned_values(const plan::Plan&, const std::vector<int>& order);

} // namespace tidemark::judge
