/// Between two levels of the multigrid: row kernels, compiled for the base processor and for AVX2 (grid/rows.h).
/// Private to the room. Columns [begin, end) count coarse cells; pointers with _0 and _1 are the two fine rows of a
/// coarse row.
#pragma once

namespace tidemark::water {

/// Face coefficients: mean of the two fine faces on a coarse face, a quarter of it for c (the cells are twice as
/// wide).
struct CoarseFacesRow {
    const float *cx_0, *cx_1, *cy_1;
    float *cx, *cy;
    float share; ///< of the sum of two fine faces
};
void coarse_faces_row(const CoarseFacesRow&, int begin, int end);

/// Mean of four fine values, less a constant.
void mean_row(const float* fine_0, const float* fine_1, float* coarse, float less, int begin, int end);

/// 1 where a fine cell has an open face. Columns count fine cells.
void open_row(const float* cx, const float* cy, const float* cy_up, float* wet, int begin, int end);

/// Faces between a wet and a dry cell among the fine cells of a coarse one; rows above and below the two as well.
void lone_faces_row(
    const float* above, const float* wet_0, const float* wet_1, const float* below, float* lone, int begin, int end);

/// Diagonal of a coarse level from its stiffness, its wet neighbours and its lone faces.
struct CoarseDiagonalRow {
    const float *wet, *wet_up, *wet_down, *lone, *stiffness;
    float* diagonal;
    float G, per_lone; ///< what a lone fine face counts
};
void coarse_diagonal_row(const CoarseDiagonalRow&, int begin, int end);

/// Residuals averaged down; the second weighs with the wet share.
struct RestrictRow {
    const float *first_0, *first_1, *second_0, *second_1, *wet;
    float *r1, *r2;
};
void restrict_row(const RestrictRow&, int begin, int end);

/// Bilinear corrections to one fine row: `near` is its own coarse row, `far` the next one on its side.
struct ProlongRow {
    const float *de_near, *de_far, *dp_near, *dp_far, *cx, *cy, *cy_up;
    float *de, *dp;
};
void prolong_row(const ProlongRow&, int begin, int end);

} // namespace tidemark::water
