/// What the hand does, cut into touches: this much of that mix, on this cell, at that second.
///
/// Every act that brings something is made into a list of touches when it begins (paths.h says in which order the hand
/// travels); play() then lays those that have come due. A brush lays a film with a level surface, so on a dry cell the
/// depth is the film over the mean plane less the cell's relief, at least a sixth of it; on a wet cell it adds the
/// film as it is.
///
/// A touch on a dry cell begins a new pass there (pigment/bind.h's rule is called through LandOn, for the hand
/// knows nothing of how paint is bound); on a wet one it stirs.
#pragma once
#include <functional>
#include <vector>

#include "plan/plan.h"
#include "sheet/ledger.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

struct Touch {
    float at_s = 0;     ///< after the act's start
    float film_m = 0;   ///< over the mean plane
    int i = 0, j = 0;
};

struct Work {
    int mix = -1;               ///< -1: clear water
    bool brush = true;          ///< drops fall, a brush also stirs
    std::vector<Touch> touches; ///< by time
    std::size_t next = 0;
    double end_s = 0;           ///< the hand is free again, after the act's start
    double back_kg_m2 = 0;      ///< to the back of the sheet at the start, over `back_share`
    grid::Field<float> back_share;
};

/// What happens to the paint already on a cell when something lands there.
struct LandOn {
    std::function<void(sheet::SheetState&, int i, int j)> dry_cell;
    std::function<void(sheet::SheetState&, int i, int j)> wet_cell;
};

/// The touches of an act on this sheet. Acts that bring nothing (tilt, dry) have none and end at once.
Work work_of(const plan::Plan&, const plan::Step&, const sheet::Geometry&);

/// Lays everything due by `until_s` (after the act's start) and books it. Returns whether anything landed.
bool play(sheet::SheetState&, const plan::Plan&, Work&, double until_s, const LandOn&, sheet::Ledger&,
          sheet::ActRecord&);

} // namespace tidemark::hand
