/// Between two levels of the multigrid: row kernels, compiled for several processors (grid/rows.h).
/// Private to the room. k in [begin, end) counts coarse cells: its fine ones are k of the even and of the odd part
/// (parted.h) of two fine rows, here _0 and _1. What is written is a coarse row in the order of its columns.
#pragma once

namespace tidemark::water {

/// Both parts of a fine row.
struct Parts {
    const float *even, *odd;
};

/// Face coefficients: the mean of the two fine faces on a coarse face, a quarter of it, for the cells are twice as
/// wide. cx_*: faces of the two rows; cy_1: lower faces of the second.
void coarse_faces_row(Parts cx_0, Parts cx_1, Parts cy_1, float* cx, float* cy, int begin, int end);

/// Mean of four fine values, less a constant.
void mean_row(Parts fine_0, Parts fine_1, float* coarse, float less, int begin, int end);

/// 1 where a fine cell has an open face.
void open_row(Parts cx, Parts cy, Parts cy_up, float* even, float* odd, int begin, int end);

/// Faces between a wet and a dry cell among the fine cells of a coarse one; rows above and below the two as well.
void lone_faces_row(Parts above, Parts wet_0, Parts wet_1, Parts below, float* lone, int begin, int end);

/// Takes from the stiffness what a contact line on each lone face gave to it: G of this level, as a mean of four.
void without_lines_row(const float* lone, float G, float* stiffness, int begin, int end);

/// Diagonal of a coarse level from its stiffness, its wet neighbours and its lone faces. Of one part of the row.
struct CoarseDiagonalRow {
    const float *wet, *wet_w, *wet_e, *wet_n, *wet_s, *lone, *stiffness;
    float* diagonal;
    float G, per_lone; ///< what a lone fine face counts
};
void coarse_diagonal_row(const CoarseDiagonalRow&, int begin, int end);

/// Residuals of four fine cells averaged; the second over the wet share of the coarse one.
struct RestrictRow {
    const float *first_even_0, *first_odd_0, *first_even_1, *first_odd_1;
    const float *second_even_0, *second_odd_0, *second_even_1, *second_odd_1;
    const float* wet; ///< of the coarse row, in the order of its columns
    float *r1, *r2;
};
void restrict_row(const RestrictRow&, int begin, int end);

/// Adds the bilinear correction (9 3 3 1)/16 to the open cells of a fine row. `near` is the coarse row that holds
/// it, `far` the next on its side, in the order of their columns with a ghost at both ends.
struct ProlongRow {
    const float *de_near, *de_far, *dp_near, *dp_far;
    Parts cx, cy, cy_up;
    float *de_even, *de_odd, *dp_even, *dp_odd;
};
void prolong_row(const ProlongRow&, int begin, int end);

} // namespace tidemark::water
