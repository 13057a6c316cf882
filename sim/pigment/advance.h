/// One step of everything pigment does in place: it is drawn in, sinks, is caught, stirred, set down, bound.
///
/// Order within a cell: uptake's water (drawn_m) carries; the jitter evens the two halves; flow lifts; weight and
/// capture act together, implicitly: upper m/(1 + ks), lower (m + fallen)/(1 + ks + kb), k = v dt/(h/2), kb by hold.h; where there
/// is no film the rest is set down; where the cell is dry it is bound. Weight acts slower in thick gum and in a crowd
/// (grain.h, viscosity.h). In a moist film, h is the water in the valley, and all goes on as before.
///
/// Reads film_m, drawn_m, fluxes, front_kg_m2, damp_tiles, the room's temperature. Writes afloat, loose, bound,
/// inside of each pigment and gum. Sets drawn_m to 0: an uptake step counts once. Masses keep their sum to rounding.
/// First order in dt; positive for any dt. Range: dt 0 to 1e6 s, the pigments' numbers and the room's temperature as
/// grain.h has them, 273.15 to 383.15 K; else refused (grid/within.h). Call once a time step, after uptake.
#pragma once
#include "pigment/workspace.h"
#include "sheet/sheet_state.h"

namespace tidemark::pigment {

void advance(sheet::SheetState&, PigmentWorkspace&, double dt_s);

} // namespace tidemark::pigment
