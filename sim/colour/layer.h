/// A paint layer on a ground, and the surface above it.
///
///   layer    R = (1 - Rg (a - b coth bSX)) / (a - Rg + b coth bSX),  a = 1 + K/S, b = sqrt(a² - 1)
///   surface  R_seen = k1 + (1 - k1)(1 - k2) R / (1 - k2 R)
///
/// Kubelka & Munk 1931, Kubelka 1948; Saunderson 1942. KX, SX: absorption and scattering of the whole layer
/// (m²/kg × kg/m², bare numbers), any values ≥ 0; grounds and reflectances 0 ... 1; limits (S → 0, K → 0, thick) are
/// continuous and free of NaN.
///
/// Range   light that is diffuse in a layer much wider than it is thick, of grains much smaller than it; K and S of its
///         inside alone (Saunderson's correction takes the surface out). Called cell by cell, so nothing is refused here:
///         sheet/look.h looks at K, S and loads.
#pragma once
#include "colour/spectrum.h"

namespace tidemark::colour {

/// k1: turned back outside, k2: inside; both 0 ... 1, k2 below 1.
struct Surface { double k1 = 0, k2 = 0; };
/// The pigment table's K and S belong to the first one: dry, matt, k2 as usually fitted (from memory).
constexpr Surface dry_matt{0.03, 0.40};
/// Under a water film: Fresnel at n = 1.333, seen away from the glare (Walsh 1926, Duntley 1942).
constexpr Surface under_water{0.02, 0.47459};

double km_over(double KX, double SX, double ground);
BodyReflectance km_over(const Bands& KX, const Bands& SX, const BodyReflectance& ground);
double seen_through(const Surface&, double body);
double body_from_seen(const Surface&, double seen);
Reflectance seen_through(const Surface&, const BodyReflectance&);
BodyReflectance body_from_seen(const Surface&, const Reflectance&);

/// Paper whose pores are full of water, from the dry one, for either surface above it. `share` 0 (dry) ... 1 (full).
///
/// Full: body = 1 - a, a = a_d ((1 - a_d) 1.0677 + a_d), a_d = 1 - what is seen of it dry. Under `under_water` that is
/// absorbed = (1 - k1) a / (1 - k2 (1 - a)): Ångström 1925, Lekner & Dorf 1988 (Appl. Opt. 27, 1278; their interpolation
/// of a and water's k2 from memory). In between: linear in the body reflectance. A real sheet darkens further, since
/// water in the pores also takes scattering away.
BodyReflectance wetted(const BodyReflectance& dry, double share);

} // namespace tidemark::colour
