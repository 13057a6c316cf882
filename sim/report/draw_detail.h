/// Boxes in pictures. All of a box must lie in the picture.
#pragma once
#include "grid/picture.h"

namespace tidemark::report {

struct Tone {
    std::uint8_t r, g, b;
};

void fill(grid::Picture&, int x, int y, int width, int height, Tone);

/// Four lines around a box, just outside it.
void frame(grid::Picture&, int x, int y, int width, int height, Tone);

} // namespace tidemark::report
