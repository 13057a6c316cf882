/// Weights of the 16 bands: X = Σ R_i x_i, and so on; a perfect white gives (95.0423, 100, 108.8610).
///
/// CIE 1931 2° colour-matching functions (1 nm) times illuminant D65 (5 nm, interpolated linearly as CIE 15 says),
/// summed under hat functions of 20 nm: the same as interpolating R linearly between the bands, flat below 400 and
/// above 700 nm. A plain sum over 20 nm would give a white that is off by 0.7 %.
#pragma once
#include "colour/lab.h"

namespace tidemark::colour {

struct Observer { std::array<double, bands> x, y, z; };
extern const Observer observer;
constexpr Xyz white{95.04228, 100.0, 108.86101};

} // namespace tidemark::colour
