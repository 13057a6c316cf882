/// The end of a film step: fluxes corrected by the solve, limited to what a cell holds, depths moved. Private.
#pragma once

namespace tidemark::water {

struct CorrectRow {
    const float *q0, *c, *dp_a, *dp_b, *de_a, *de_b, *tilt;
    float* q;
    float w; ///< dx/dt
};
void correct_row(const CorrectRow&, int begin, int end, bool tilted);

struct GivenRow {
    const float *h, *qx, *qy, *qy_up;
    float* given; ///< factor on what leaves the cell, ≤ 1
    float k;      ///< dt/dx
};
int given_row(const GivenRow&, int begin, int end); ///< how many cells are limited
void limit_row(float* q, const float* given_a, const float* given_b, int begin, int end);

struct MoveRow {
    const float *h, *qx, *qy, *qy_up, *h_down;
    float *low, *out;
    float k;
};
float move_row(const MoveRow&, int begin, int end);  ///< largest |Δh|/(h + 10 µm)
float speed_row(const MoveRow&, int begin, int end); ///< largest 3|q|/(h + 5 µm)

} // namespace tidemark::water
