/// Weights of the 16 bands: X = Σ R_i x_i, and so on; a perfect white gives (95.0423, 100, 108.8610) in D65, (96.4213,
/// 100, 82.5016) in D50.
///
/// CIE 1931 2° colour-matching functions (1 nm) times the illuminant (5 nm, interpolated linearly as CIE 15 says),
/// summed under hat functions of 20 nm: the same as interpolating R linearly between the bands, flat below 400 and
/// above 700 nm. A plain sum over 20 nm would give a white that is off by 0.7 %.
#pragma once
#include "colour/lab.h"

namespace tidemark::colour {

struct Observer { std::array<double, bands> x, y, z; };
const Observer& observer_in(Light);
constexpr Xyz white_in_d65{95.04228, 100.0, 108.86101}, white_in_d50{96.421345, 100.0, 82.501569};
constexpr const Xyz& white_of(Light light) { return light == Light::D50 ? white_in_d50 : white_in_d65; }

} // namespace tidemark::colour
