/// Reflectance, K and S in 16 bands, 400 to 700 nm by 20.
#pragma once
#include <array>

namespace tidemark::colour {

constexpr int bands = 16;
constexpr double first_band_nm = 400, band_step_nm = 20;

using Bands = std::array<float, bands>; ///< any quantity by band
struct Reflectance { Bands at{}; };     ///< 0 ... 1, as an eye outside the surface sees it
struct BodyReflectance { Bands at{}; }; ///< 0 ... 1, inside, under the surface (see layer.h)

} // namespace tidemark::colour
