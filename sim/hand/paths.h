/// In which order a hand covers an area.
///
///   rows        bands as wide as a loaded brush (12 mm, common practice), to and fro, from the top
///   downhill    across the slope, from its upper end, as a bead is led down a tilted board
///   from_point  outwards from a start point along the shape: by geodesic distance inside the mask, so that one
///               connected wash is painted as a hand travels. Parts that hang together only through other paper are
///               taken in turn, each from its cell nearest to where the hand left off.
///   order       by a grey picture, dark first; what is equally dark in rows
///   strokes     along drawn lines: a cell is passed when the first of them that comes within reach is nearest; cells
///               that none comes near are left out
///
/// The hand moves at an even pace: a cell's time is the area painted before it over pace_m2_s.
/// Lengths in m from the sheet's top left corner; coverage 0 ... 1; paces above 0 (touch.h looks at an act's numbers).
#pragma once
#include <vector>

#include "grid/field.h"
#include "grid/geodesic.h"
#include "plan/plan.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

using grid::Cell;

constexpr double band_m = plan::loaded_mark_m;
constexpr float painted = 0.25f; ///< a cell that the area covers less stays untouched

/// Cells with coverage of at least `painted`, in the order of the hand.
std::vector<Cell> cells_in_rows(const grid::Field<float>& coverage, double cell_m);
std::vector<Cell> cells_downhill(const grid::Field<float>& coverage, double direction_rad);
std::vector<Cell> cells_from(const grid::Field<float>& coverage, double cell_m, double x_m, double y_m);

std::vector<Cell> cells_in_order(const grid::Field<float>& coverage, double cell_m, const grid::GreyPicture& order);

/// `at_m`: travelled along the strokes, one after the other, when the cell is passed.
struct Passed { Cell cell; double at_m = 0; };
std::vector<Passed> cells_along(const grid::Field<float>& coverage, double cell_m, const std::vector<plan::Stroke>&,
                                double reach_m);
double length_m(const std::vector<plan::Stroke>&);

/// The boundary of an area, where its coverage crosses a half, in the order of a hand that follows it; `along`: only
/// where that other area's cells lie within `near_m`. Points are metres; `at_m` is travelled along the boundary, and
/// the hand hops from one piece to the next, which costs no way. The sheet's border is no boundary.
struct BoundaryPoint { double x_m = 0, y_m = 0, at_m = 0; };
std::vector<BoundaryPoint> boundary_of(const grid::Field<float>& coverage, double cell_m,
                                       const grid::Field<float>* along, double near_m);

} // namespace tidemark::hand
