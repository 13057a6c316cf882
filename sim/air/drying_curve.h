/// The rate at which half a sheet without film gives its water to the air, by its moisture.
///
///   E(w) = E_wet · s(a(w)),  a(w) the GAB isotherm turned round,  s(humidity) = 0,  s(1) = 1
///
/// s is the plate's own heat balance at activity a, without sun, by that at 1: nearly (a - RH)/(1 - RH), somewhat
/// more in between, because a drier surface is also a warmer one. Sun and sky enter through E_wet alone, so that dry
/// paper rests at the room's humidity (really sunlit paper rests a little drier).
///
/// Kept as k(w) = E(w)/(w - equilibrium), a table even in w: at equilibrium nothing moves, to the last bit. Above
/// saturation (a = 1) the rate is E_wet. A dry sheet takes vapour up by the same curve (E < 0).
///
/// Range   that of plate.h; moisture from 0, below which the curve is that of bone-dry paper. The isotherm's own
///         range is materials/paper.h's: GAB is published up to activities of about 0.9; beyond, up to the free water
///         of saturation, it is carried on.
#pragma once
#include "air/plate.h"
#include "materials/paper.h"

#include <vector>

namespace tidemark::air {

struct DryingCurve {
    double equilibrium_kg_m2 = 0; ///< of half a sheet with the room
    double saturated_kg_m2 = 0;   ///< half a sheet whose water is just not free
    float wet_kg_m2_s = 0;        ///< E_wet of one face, at least 0: dew is left out
    float nodes_per_kg_m2 = 0;    ///< of the table below
    std::vector<float> k_1_s; ///< E/(w - equilibrium) at w = n / nodes_per_kg_m2, one node beyond saturation
};

/// `wet`: the rate of a face with film, `surface` what belongs to the surface (activity is overwritten).
DryingCurve
make_drying_curve(const materials::Paper&, const materials::Room&, double length_m, const PlateSurface& surface);

/// E at half-sheet moisture w, read from the table; kg/(m² s). For tests and reports; the row kernel has its own.
double drying_rate_kg_m2_s(const DryingCurve&, double half_kg_m2);

} // namespace tidemark::air
