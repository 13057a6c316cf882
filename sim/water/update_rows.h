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
int overdrawn(const GivenRow&, int begin, int end); ///< how many cells would give more than they have
void given_row(const GivenRow&, int begin, int end);
void limit_row(float* q, const float* given_a, const float* given_b, int begin, int end);

struct MoveRow {
    const float *h, *qx, *qy, *qy_up;
    float *low, *out;
    float k;
};
struct Moved {
    float change = 0; ///< largest |Δh|/(h + 10 µm)
    float speed = 0;  ///< largest 3 q/(h + 5 µm) of what leaves a cell
};
Moved move_row(const MoveRow&, int begin, int end);

} // namespace tidemark::water
