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
void water_row(int n, const float* film_before, RowFaces, float dt_per_dx, float done, WaterRow);

/// Rising water carries; then concentrations.
struct RaiseRow {
    const float *up_share, *per_lower, *per_upper;
    float *lower, *upper, *c_lower, *c_upper;
};
void raise_row(int n, RaiseRow);

float peak_row(int n, const float* c_lower, const float* c_upper);

/// One half's concentrations and water around a row, and how far the slope may reach.
struct HalfRow {
    const float *c, *c_a, *c_b;       ///< the row; the cells before and behind along the direction looked in
    const float *per, *per_a, *per_b; ///< 1/depth likewise
    const float *out_m, *film;
    float share; ///< of the film's flux that runs in this half
};
/// Concentration at the far (+) and near (-) face of each cell; heft: about twice the mass the half holds.
struct FaceRow {
    float *far, *near, *heft;
};
void slope_row(int n, HalfRow, FaceRow);

/// scale × flux × upwind concentration, kg/m²; `from` the cells before the faces, `to` those behind. Rounded to what
/// the fuller of the two can hold, so that it takes exactly what the other gives: a heavy rim would else lose every
/// small gift to rounding, always the same way.
void flux_row(int n, const float* flux, float scale, FaceRow from, FaceRow to, float* carried);

/// m -= divergence, not below 0.
void give_row(int n, const float* across, const float* above, const float* below, float* mass);

/// Sinking water carries.
void sink_row(int n, const float* down_share, float* lower, float* upper);

} // namespace tidemark::pigment
