/// Row kernels of downhill.h. Private to the room.
#pragma once

namespace tidemark::water {

/// A row of cells and the row downhill of it (`to`).
struct MarchRow {
    const float *h, *bed, *bed_to, *p, *p_to, *way, *way_to, *factor, *factor_to;
    float *passing; ///< in: m arriving from above; out: m leaving
    float *ahead;
    float steep, k, inverse_dx, nu3, held; ///< steep > 0; k = dt/dx
};
void march_row(const MarchRow&, int begin, int end);
/// The same along a row, in the order of the flow (step 1 or -1): each cell hands on to the next; `arriving` m come into
/// the first.
void march_along(const MarchRow&, int begin, int end, int step, float arriving);

/// Factor on what a row of cells gives, when `qy_in` (through the face uphill, positive: into the row) has been
/// limited already; then the faces up- and downhill are scaled. sign: 1 where downhill is +y, else -1.
struct ChainRow {
    const float *h, *qx, *qx_left;
    float *q_in, *q_out; ///< faces uphill and downhill of the row
    float* given;
    float k, sign;
};
void chain_row(const ChainRow&, int begin, int end);
/// The same along a row: faces i-1 and i, other faces qy and qy_up.
struct ChainAlong {
    const float *h, *qy, *qy_up;
    float *q, *given;
    float k;
};
void chain_along(const ChainAlong&, int begin, int end, int step);

} // namespace tidemark::water
