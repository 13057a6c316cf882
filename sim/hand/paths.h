/// In which order a hand covers an area.
///
///   rows        bands as wide as a loaded brush (12 mm, common practice), to and fro, from the top
///   downhill    across the slope, from its upper end, as a bead is led down a tilted board
///   from_point  outwards from a start point along the shape: by geodesic distance inside the mask, so that one
///               connected wash is painted as a hand travels. Parts that hang together only through other paper are
///               taken in turn, each from its cell nearest to where the hand left off.
///
/// The hand moves at an even pace: a cell's time is the area painted before it over pace_m2_s.
#pragma once
#include <vector>

#include "grid/field.h"
#include "plan/plan.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

struct Cell { int i = 0, j = 0; };

constexpr double band_m = 12e-3;

/// Cells with coverage of at least 0.25, in the order of the hand.
std::vector<Cell> cells_in_rows(const grid::Field<float>& coverage, double cell_m);
std::vector<Cell> cells_downhill(const grid::Field<float>& coverage, double direction_rad);
std::vector<Cell> cells_from(const grid::Field<float>& coverage, double cell_m, double x_m, double y_m);

} // namespace tidemark::hand
