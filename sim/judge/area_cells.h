/// A plan's areas on the cells of the sheet.
///
/// Coverage is 0 ... 1, one value a cell of the sheet (nx × ny, no padding): the area mean of the mask inside the
/// cell, or a bilinear value where the mask is coarser than the cells. The whole sheet (plan::whole_sheet, or an
/// area without a mask) is 1 everywhere. A cell belongs to an area from coverage 0.5 upwards.
#pragma once
#include <string>

#include "grid/field.h"
#include "plan/plan.h"
#include "sheet/sheet_state.h"

namespace tidemark::judge {

constexpr float half_covered = 0.5f;

grid::Field<float> area_on_grid(const plan::Plan&, int area, const sheet::Geometry&);

/// The area's name, or "whole sheet".
std::string area_name(const plan::Plan&, int area);

} // namespace tidemark::judge
