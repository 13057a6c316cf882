/// Momentum that moving water takes along: row kernels for faces. Private to the room.
///
/// On the staggered grid a face has a cell of its own, from centre to centre; over its borders comes the mean Q of
/// the fluxes on either side. In the last step, of dt, what stayed and what came in have mixed, each with its own
/// speed:
///   v* = ((h - in) v + Σ dt/dx Q_in v_in) / h,   in = Σ dt/dx Q_in,   h the depth of the face's cell after that step
/// So momentum is kept as mass is, and shocks travel at their speed (Stelling & Duinmeijer 2003, Int. J. Numer. Meth.
/// Fluids 43, 1329-1354; upwind, first order; here a step behind, for the fluxes are implicit). A mean of speeds: no
/// step is too long for it.
#pragma once

namespace tidemark::water {

/// Speeds v = q/he of a row of faces, at most a cell a step; he as the flux was made of.
struct SpeedRow {
    const float *flux, *depth;
    float* speed;
    float k; ///< dt/dx
};
void speed_row(const SpeedRow&, int begin, int end);

/// v* of a row of faces. `back`, `front`: the faces before and behind along the axis; `near`, `far`: the cross fluxes
/// of cells a and b at their borders before and after, and the speeds of the faces beside, across the axis.
struct CarriedRow {
    const float *h_a, *h_b; ///< after the last step
    const float *flux, *back, *front, *far_a, *far_b, *near_a, *near_b;
    const float *speed, *speed_back, *speed_front, *speed_near, *speed_far;
    float* carried;
    float k, held; ///< dt/dx; water that does not flow
};
void carried_row(const CarriedRow&, int begin, int end);

/// Largest of a row of depths.
float deepest_of_row(const float* h, int begin, int end);

} // namespace tidemark::water
