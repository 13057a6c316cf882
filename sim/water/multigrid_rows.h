/// The row kernels of the multigrid: one row, columns [begin, end). Private to the room.
///
/// `up` is row j-1, `down` row j+1. Each is compiled for the base processor and for AVX2 (grid/rows.h) and gives the
/// same bytes in both.
#pragma once
#include <cstdint>

namespace tidemark::water {

/// Everything a row needs of one level. Pointers to column 0.
struct LevelRow {
    float *de, *dp;
    const float *de_up, *de_down, *dp_up, *dp_down;
    const float *cx, *cy, *cy_up, *ax, *ay, *ay_up;
    const float *diagonal, *wet, *r1, *r2;
    float G;
};

/// One colour of the 2 × 2 relaxation; `keep` has all bits set on the columns of this colour,
/// none on the others. The four flavours: with or without
/// tilt terms, finest level (wet = 1, r2 = 0) or coarser.
void relax_row(const LevelRow&, const std::int32_t* keep, int begin, int end, bool tilted, bool finest);
/// The first colour from a zero start: nothing to read of the neighbours; the other colour is set to 0.
void relax_row_from_zero(const LevelRow&, const std::int32_t* keep, int begin, int end, bool tilted, bool finest);
/// Residuals of both equations; on the finest level returns the largest |first|.
float residual_row(const LevelRow&, float* out1, float* out2, int begin, int end, bool tilted, bool finest);

} // namespace tidemark::water
