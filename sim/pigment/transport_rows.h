/// Row kernels of transport.h. Private to the room. n cells from the pointers on. No two pointers overlap, but for
/// neighbours of one row.
#pragma once

namespace tidemark::pigment {

/// Faces around a row of a block, closed where the neighbour sleeps. left[0] is the face left of cell 0.
struct RowFaces {
    const float *left, *above, *below; ///< m²/s
};

/// Largest share of an upper half that leaves its cell.
float cfl_row(int n, const float* film, RowFaces, float dt_per_dx);

/// What the water does in one sub-step (workspace.h); `done` sub-steps of the same size came before.
struct WaterRow {
    float *per_lower, *per_upper, *out_m, *up_share, *down_share;
};
/// Returns whether it marked any cell as one of through-flow.
bool water_row(int n, const float* film_before, RowFaces, float dt_per_dx, float done, WaterRow);
constexpr float through_per_m = 1e-20f; ///< in per_lower and per_upper of such a cell: no slopes in it or beside it

/// Rising water carries; then concentrations.
struct RiseRow {
    const float *up_share, *per_lower, *per_upper;
};
void raise_row(int n, RiseRow, float* lower, float* upper, float* c_lower, float* c_upper);

/// The same concentrations, with the masses left as they are. Returns the largest sum of the two.
float look_row(int n, RiseRow, const float* lower, const float* upper, float* c_lower, float* c_upper);

/// Largest sum of two.
float peak_row(int n, const float* lower, const float* upper);

/// One half's concentrations c and 1/depth per at a row and at its neighbour rows.
struct HalfRow {
    const float *c, *c_above, *c_below;
    const float *per, *per_above, *per_below;
    const float* out_m;
    float share; ///< of the film's flux that runs in this half
};
/// How much the concentration rises from the middle of a cell to its right and to its lower face.
void slope_row(int n, HalfRow, float* across, float* down);

/// Cells on one side of a row of faces; `rise` is towards +x or +y. c times film is about twice what the half holds.
struct FaceSide {
    const float *c, *rise, *film;
};
/// scale × flux × upwind concentration, kg/m²; `from` the cells before the faces, `to` those behind. Rounded to what
/// the fuller of the two can hold, so that it takes exactly what the other gives: a heavy rim would else lose every
/// small gift to rounding, always the same way.
void flux_row(int n, const float* flux, float scale, FaceSide from, FaceSide to, float* carried);

/// What flux_row carries through the faces around one half of a row, and its mass.
struct GiveRow {
    const float *across, *above, *below;
    float* mass;
};
/// m -= divergence, not below 0; then sinking water carries.
void give_row(int n, GiveRow lower, GiveRow upper, const float* down_share);

} // namespace tidemark::pigment
