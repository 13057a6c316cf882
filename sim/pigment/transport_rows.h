/// Row kernels of transport.h. Private to the room. n cells from the pointers on; x kernels also read cell -1 and n,
/// slopes one further. All fluxes are depths: flux × dt/dx.
#pragma once

namespace tidemark::pigment {

/// Faces around a row of a block, closed where the neighbour sleeps. left[0] is the face left of cell 0.
struct RowFaces { const float *left, *above, *below; };

/// Largest share of an upper half that leaves its cell.
float cfl_row(int n, const float* film, RowFaces, float dt_per_dx);

struct WaterRow { float *per_lower, *per_upper, *out_m, *up_share, *down_share; };
/// What the water does in one sub-step; `done` sub-steps of the same size came before.
void water_row(int n, const float* film_before, RowFaces, float dt_per_dx, float done, WaterRow);

/// Rising water carries; then concentrations.
void raise_row(int n, const float* up_share, const float* per_lower, const float* per_upper, float* lower, float* upper,
               float* c_lower, float* c_upper);

/// One half's concentrations and water around a row, and how far the slope may reach.
struct HalfRow {
    const float *c, *c_a, *c_b;       ///< the row; the cells before and behind along the direction looked in
    const float *per, *per_a, *per_b; ///< 1/depth likewise
    const float* out_m;
    float share;                      ///< of the film's flux that runs in this half
};
/// Concentration at the far (+) and near (-) face of each cell.
void slope_row(int n, HalfRow, float* far_face, float* near_face);

/// flux × upwind concentration; `from` far faces of the cells before, `to` near faces of the cells behind.
void flux_row(int n, const float* flux, const float* from, const float* to, float* carried);

/// m -= scale × divergence, not below 0.
void give_row(int n, const float* x_left, const float* above, const float* below, float scale, float* mass);

/// Sinking water carries.
void sink_row(int n, const float* down_share, float* lower, float* upper);

} // namespace tidemark::pigment
