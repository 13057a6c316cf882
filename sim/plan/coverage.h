/// A plan's areas on a grid of nx × ny cells: how much of each cell the area covers, 0 ... 1. A cell belongs to an
/// area from 0.5 upwards.
///
///   a mask       its mean inside the cell (bilinear where the mask is coarser)
///   a shape      the share of the cell inside the outline: 8 × 8 points, each with a ramp as wide as their spacing;
///                exact for edges along the grid. A soft edge: the mean of its ramp
///   a set        at each of these points the greatest value for `all`, the least for `and`, min(a, 1 - b) for
///                `minus`; then their mean. So hard shapes that touch join without a seam and share nothing, and one
///                cut from another leaves what a knife would. A mask counts with its mean in the cell
///   whole_sheet  1
#pragma once
#include <string>

#include "grid/field.h"
#include "plan/plan.h"

namespace tidemark::plan {

constexpr float half_covered = 0.5f;

grid::Field<float> coverage(const Plan&, int area, int nx, int ny);
std::string area_name(const Plan&, int area); ///< "whole sheet" for whole_sheet

/// Is there a point of the sheet that belongs to the area? Looked for every 1/16 mm (of masks: 1/2 mm).
bool covers_anything(const Plan&, int area);

} // namespace tidemark::plan
