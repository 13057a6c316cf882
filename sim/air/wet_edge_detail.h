/// Which cells are wet, and how far each is from the nearest dry one: exact distances up to `reach` cells.
///
/// Two passes as in Saito & Toriwaki (1994): along rows, then the smallest over the column of across² + dy².
/// What lies beyond the sheet is dry.
#pragma once
#include "air/sideways.h"

namespace tidemark::air {

void mark_wet(SidewaysVapour&, const sheet::SheetState&, double wet_front_kg_m2);
void distance_across(SidewaysVapour&, const sheet::Geometry&);
/// Square of the distance from the centre of each cell begin ... end of row j (one tile's width) to the nearest dry
/// cell's centre, in cells; 0 for dry, at most (reach + 1)².
void distance2_to_dry(const SidewaysVapour&, const sheet::Geometry&, int j, int begin, int end, std::int32_t* d2);

} // namespace tidemark::air
