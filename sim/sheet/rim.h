/// The rim of a part of the sheet that is stepped more finely than the rest (rehearsal/brisk.h): the faces between the
/// part (inner cells) and what is awake around it (outer cells).
///
/// What passes them is known from a step of the whole sheet before the part begins: `given`. The part is then stepped
/// with these fluxes on its rim, and the rest is told afterwards what really passed, so that nothing is gained or lost.
#pragma once
#include "sheet/sheet_state.h"

#include <vector>

namespace tidemark::sheet {

struct RimFace {
    int i = 0, j = 0;       ///< of the face, as in flux_x_m2_s or flux_y_m2_s
    bool across = false;    ///< a face of flux_x_m2_s
    bool outer_first = false; ///< the outer cell is (i, j) itself, the inner one lies right of it or below
    float given_m2_s = 0;   ///< as the field has it
    float passing_m2_s = 0; ///< in the last sub-step: less than given when the inner cell had no more
    double passed_m = 0;    ///< in all of them, as depth of the inner cell, with the sign of the field

    int inner_i() const { return outer_first && across ? i + 1 : i; }
    int inner_j() const { return outer_first && !across ? j + 1 : j; }
    int outer_i() const { return !outer_first && across ? i + 1 : i; }
    int outer_j() const { return !outer_first && !across ? j + 1 : j; }
    /// A flux of the field, as water that leaves the part.
    template <class T> T out(T flux) const { return outer_first ? -flux : flux; }
    float& flux(SheetState& s) const { return across ? s.flux_x_m2_s(i, j) : s.flux_y_m2_s(i, j); }
};

/// The rim of `part` among the awake tiles of the sheet, tile by tile, with the fluxes that the sheet has now.
std::vector<RimFace> rim_of(SheetState&, const grid::TileSet& part);

} // namespace tidemark::sheet
