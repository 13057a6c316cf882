/// Row kernels that set down and bind. Private to the room. n cells from the pointers on; no two pointers overlap.
#pragma once
#include "sheet/stage.h"

namespace tidemark::pigment {

bool any(int n, const float* m);

/// 1 where there is no film, else 0. Returns whether there is such a cell.
bool bare_row(int n, const float* film, float* bare);

/// 1 where there is no film and the cell is dry (sheet/stage.h), else 0. Returns whether there is such a cell.
bool dry_row(int n, const sheet::StageRule&, const float* film, const double* front, float* dry);

/// lower, upper -> down where bare is 1.
void set_down_row(int n, const float* bare, float* lower, float* upper, float* down);

/// loose -> bound where dry is 1.
void bind_row(int n, const float* dry, float* loose, float* bound);

} // namespace tidemark::pigment
