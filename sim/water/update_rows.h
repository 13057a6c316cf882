/// The end of a film step: fluxes corrected by the solve, limited to what a cell holds, depths moved. Private.
#pragma once

namespace tidemark::water {

/// What faces bring to each cell: r1 = -k div q.
void gain_row(const float* qx, const float* qy, const float* qy_up, float* r1, float k, int begin, int end);

/// q = q0 - w c (dp_b - dp_a), w = dx/dt.
void correct_row(
    const float* q0, const float* c, const float* dp_a, const float* dp_b, float* q, float w, int begin, int end);

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

/// What a cell was moved by beyond the solve's increment: its residual, and what the limiter kept.
void left_row(const float* before, const float* after, const float* de, float* left, int begin, int end);

} // namespace tidemark::water
