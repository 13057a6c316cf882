/// How fast a flat wet sheet dries in the air of a room.
///
///   draught      Sh = 0.664 Re^1/2 Sc^1/3, Nu likewise with Pr, times the room's turbulence factor (laminar plate)
///   still air    Nu = 0.27 Ra^1/4 on a quarter of the length (cooled plate facing up), and 8/π, what a disc of that
///                diameter loses by diffusion alone
///   together     as the third root of the sum of cubes
///   surface      where heat brought = heat taken:
///                faces · h (T - Ts) + faces · radiation + absorbed sun + longwave = faces · E L
///
/// Transport properties at the mean of surface and air. No correction for blowing; 4 % at most.
/// Range   Re below about 5e5 (2 m of plate at 4 m/s); beyond, the laminar law gives too little. Not refused: a plan may
///         ask for 20 m/s.
///         Refused (grid/within.h): a room beyond materials/room.h, but for a dryer's 353.15 K and humidity 0 ... 1; a
///         plate beyond 1 mm ... 10 m; activity, shares and emissivity beyond 0 ... 1; other than 1 or 2 faces.
/// Source  Pohlhausen (1921); natural convection, radiation and the cube sum as in Incropera & DeWitt, from memory;
///         diffusion from a disc: Weber (1873).
#pragma once
#include "materials/room.h"

namespace tidemark::air {

/// What belongs to the surface rather than to the room.
struct PlateSurface {
    double activity = 1;        ///< of the water in it, 0 ... 1; 1 with a film
    int faces = 1;              ///< that dry, 1 or 2; 2 when the sheet hangs free
    bool cooled = true;         ///< false: held at room temperature, the upper bound
    bool still_air = true;      ///< false: the draught alone
    bool radiates = true;       ///< false: no long-wave exchange with the walls (adiabatic)
    double sun_absorbed = 0.28; ///< share of the sun a white wet sheet takes up, 0 ... 1; from memory
    double emissivity = 0.92;   ///< long-wave, 0 ... 1; from memory
};

struct Evaporation {
    double rate_kg_m2_s = 0; ///< from each face; negative when dew forms
    double surface_K = 0;
    double transfer_m_s = 0; ///< rate / difference of vapour density
    double layer_m = 0;      ///< diffusivity / transfer: thickness of the still layer that would let as much through
};

Evaporation plate_evaporation(const materials::Room&, double length_m, const PlateSurface& = {});

/// Mean drag of the air on the sheet, along it, Pa: 1.328 Re^-1/2 · ½ρu², times the room's turbulence factor, for the
/// wall's friction and what it gives to the air are of one kind (Reynolds's analogy). Blasius (1908),
/// laminar: the same range.
double plate_stress_Pa(const materials::Room&, double length_m);

} // namespace tidemark::air
