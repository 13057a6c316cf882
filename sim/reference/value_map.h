/// What a painter reads off a picture: its values, CIE L* (D65) of every pixel, 0 (black) ... 100 (white).
///
/// L*, not a mean of the channels: full blue and full green have one channel mean and lie 55 L* apart, and the values
/// of the dried sheet are L* too. Source: L* as in colour/lab.h (CIE 15; sRGB IEC 61966-2-1).
#pragma once
#include "grid/picture.h"

#include <cstddef>
#include <vector>

namespace tidemark::reference {

struct ValueMap {
    int width = 0, height = 0;
    std::vector<float> lstar; ///< row by row from the top left
    float at(int x, int y) const { return lstar[static_cast<std::size_t>(y) * width + x]; }
};

ValueMap value_map(const grid::Picture&);

/// Resampled to width × height (both > 0): area mean where it shrinks, nearest pixel where it grows.
///
/// The mean is taken of L*, not of light: steps of L* are equal steps to the eye, so a fine texture comes out as the
/// value that its parts are judged by, the mean of a mass does not depend on the size it was measured at, and noise
/// in the darks weighs no less than noise in the lights. (Light itself, mixed by distance, would read a little
/// paler.)
ValueMap resized(const ValueMap&, int width, int height);

} // namespace tidemark::reference
