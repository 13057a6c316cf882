/// Pictures that follow each other in one file: a GIF, which every browser and slide program plays, over and over.
///
/// One palette of at most 255 colours for all of it (palette_detail.h), no dithering: washes have few hues and no film
/// grain. What does not change from a picture to the next is left transparent, so that a sheet that only dries takes
/// little. Times are kept in hundredths of a second. The same pictures give the same bytes. Written by giflib.
///
/// Range   1 picture and more, all of one size, 1 to 65535 pixels each way, each shown for 0.02 to 60 s; else refused
///         (grid/within.h).
#pragma once
#include "grid/picture.h"

namespace tidemark::grid {

struct Shown {
    Picture picture;
    double seconds = 0.1; ///< how long it stands
};

std::vector<std::uint8_t> gif_bytes(const std::vector<Shown>&);

} // namespace tidemark::grid
