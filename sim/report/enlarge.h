/// A picture of cells made larger without showing the cells.
///
/// Cubic convolution (Keys 1981, a = -1/2) along rows, then along columns, in linear light, so that a fine pattern
/// keeps the tone it has from a distance. Every value is held between the two cells it lies between: an edge gets no
/// bright or dark line beside it, and a constant stays that constant.
#pragma once
#include "grid/picture.h"

namespace tidemark::report {

/// `factor` 1 ... 16.
grid::Picture enlarged(const grid::Picture&, int factor);

/// Pixels a cell, so that the picture has about `pixels_per_mm`, but no more than `most_pixels` in all; at least 1.
int enlargement(int nx, int ny, double cell_m, double pixels_per_mm, double most_pixels = 24e6);

} // namespace tidemark::report
