/// The row kernels of the multigrid: one part of a row (parted.h), k in [begin, end). Private to the room.
///
/// Each is compiled for several processors (grid/rows.h) and gives the same bytes on all.
#pragma once

namespace tidemark::water {

/// Everything the cells of one part need of a level. `_w`, `_e`: neighbours left and right, in the other part of the
/// row, shifted so that they have the cell's own k; `_n`, `_s`: rows j-1 and j+1. Faces likewise, by the cell's sides.
struct PartRow {
    float *de, *dp;
    const float *de_w, *de_e, *de_n, *de_s, *dp_w, *dp_e, *dp_n, *dp_s;
    const float *c_w, *c_e, *c_n, *c_s;
    const float *diagonal, *wet, *r1, *r2;
    float G;
};

/// The 2 × 2 relaxation of every cell of the part. On the finest level wet = 1 and r2 = 0.
void relax_row(const PartRow&, int begin, int end, bool finest);
/// The same when all increments are still 0: nothing to read of the neighbours.
void relax_row_from_zero(const PartRow&, int begin, int end, bool finest);
/// Residuals of both equations.
void residual_row(const PartRow&, float* out1, float* out2, int begin, int end, bool finest);
/// largest ← max(largest, |x|), element by element; a NaN counts as larger than anything.
void raise_largest(const float* x, float* largest, int begin, int end);

} // namespace tidemark::water
