/// Spectra to XYZ, L*a*b* and display values.
///
/// CIE 1931 2° observer, illuminant D65 or D50 (CIE 15; weights by hat functions over the 16 bands: white 95.0423, 100,
/// 108.8610 and 96.4213, 100, 82.5016); L*a*b* CIE 1976 (ISO/CIE 11664-4); sRGB IEC 61966-2-1. An eye is used to the
/// light it looks by: L*a*b* are relative to the white of that light, and what is seen in D50 goes to the screen, whose
/// white is D65, through the linear Bradford transform (ICC.1, chromaticAdaptationTag): white paper stays white.
#pragma once
#include <cstdint>

#include "colour/spectrum.h"

namespace tidemark::colour {

struct Xyz { double X = 0, Y = 0, Z = 0; };   ///< percent: Y 0 ... 100
struct Lab { double L = 0, a = 0, b = 0; };   ///< L* 0 ... 100
struct Srgb8 { std::uint8_t r = 0, g = 0, b = 0; };
enum class Light { D65, D50 };          ///< daylight at noon from the sky; warmer, of a print viewing booth (ISO 3664)

Xyz xyz_from(const Reflectance&, Light = Light::D65);
Lab lab_from(const Xyz&, Light = Light::D65); ///< white of the 16 bands in that light
Xyz xyz_from(const Lab&, Light = Light::D65); ///< and back
Xyz adapted_to_d65(const Xyz&, Light);  ///< the colour that looks in D65 as this one does in that light (Bradford)
double lstar_from_Y(double Y_percent);  ///< 0 ... 100 both, and the other way round
double Y_from_lstar(double lstar);
double linear_from_srgb(double encoded); ///< 0 ... 1 both
double srgb_from_linear(double linear);
Xyz xyz_from_srgb(Srgb8);
Lab lab_from_srgb(Srgb8);
float lstar_from_srgb(Srgb8);           ///< by table; the value a painter reads off the picture
Srgb8 srgb_from(const Xyz&, Light = Light::D65); ///< adapted_to_d65; out of gamut: clipped per channel
double delta_e_2000(const Lab&, const Lab&); ///< Sharma, Wu & Dalal 2005

} // namespace tidemark::colour
