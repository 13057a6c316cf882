/// Row kernels of minimal_residual.cpp: one part of a row (parted.h), compiled for several processors
/// (grid/rows.h). Private to the room. Of the finest level only.
#pragma once
#include "water/multigrid_rows.h"

namespace tidemark::water {

void pressure_of_row(const PartRow&, int begin, int end);            ///< dp = A de - G Σ de_nb
void image_row(const PartRow&, float* out, int begin, int end);      ///< de + Σ c (dp - dp_nb)
void left_of_row(const PartRow&, float* out, int begin, int end);    ///< r1 less that
double dot_row(const float* a, const float* b, int begin, int end);  ///< in double, in a fixed order
void add_row(float* to, const float* what, float factor, int begin, int end);

} // namespace tidemark::water
