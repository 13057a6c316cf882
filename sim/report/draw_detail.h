/// Boxes in pictures. All of a box must lie in the picture.
#pragma once
#include "grid/picture.h"

namespace tidemark::report {

struct Tone {
    std::uint8_t r, g, b;
};

/// The neutral code of that L*, 0 ... 100 (clamped).
std::uint8_t grey_of(double lstar);

void fill(grid::Picture&, int x, int y, int width, int height, Tone);

/// Four lines around a box, just outside it.
void frame(grid::Picture&, int x, int y, int width, int height, Tone);

} // namespace tidemark::report
