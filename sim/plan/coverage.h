/// A plan's areas on a grid of nx × ny cells: how much of each cell the area covers, 0 ... 1.
/// Area mean of the mask inside the cell (bilinear where the mask is coarser); the whole sheet is 1 everywhere.
/// A cell belongs to an area from 0.5 upwards.
#pragma once
#include <string>

#include "grid/field.h"
#include "plan/plan.h"

namespace tidemark::plan {

constexpr float half_covered = 0.5f;

grid::Field<float> coverage(const Plan&, int area, int nx, int ny);
std::string area_name(const Plan&, int area); ///< "whole sheet" for whole_sheet

} // namespace tidemark::plan
