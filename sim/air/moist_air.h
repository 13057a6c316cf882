/// Moist air at one standard atmosphere (101.325 kPa): saturation, wet bulb, and what carries heat and vapour.
///
/// Temperatures in K. Parameters of a run are made with these functions once; nothing here is called cell by cell.
///
/// Range   213 to 450 K, else std::invalid_argument (grid/within.h). Published for less: saturation over liquid water
///         273 to 473 K (below, the same curve stands for supercooled water), vapour in air 282 to 450 K (both from
///         memory). The search for a surface's temperature (plate.h) may pass through all of it.
/// Sources  saturation pressure: Hyland & Wexler (1983), as printed in the ASHRAE Handbook, Fundamentals;
///          wet bulb: the thermodynamic wet bulb of the same handbook;
///          vapour in air: Marrero & Mason (1972); viscosity and conductivity: Sutherland (1893).
///          Coefficients from memory; the tests hold their values against the printed ones.
#pragma once
#include "grid/within.h"

namespace tidemark::air {

constexpr double atmosphere_Pa = 101325.0;
constexpr grid::Allowed air_K{213, 450, "K"};

double saturation_pressure_Pa(double T_K);
/// Density of water vapour at relative humidity (or water activity) `humidity`, 0 ... 1, kg/m³.
double vapour_density_kg_m3(double T_K, double humidity);
/// kg of vapour a kg of dry air; 0 ... 100 kPa, for at one atmosphere there is no dry air left.
double humidity_ratio(double vapour_pressure_Pa);
/// What a shaded, well ventilated wet surface of adiabatic saturation reads; 273.15 ... 353.15 K,
/// humidity 0 ... 1.
double wet_bulb_K(double T_K, double humidity);
double latent_heat_J_kg(double T_K); ///< a straight line: within 0.4 % from 0 to 100 °C
double vapour_diffusivity_m2_s(double T_K);

/// Dry air, and vapour in it.
struct AirProperties {
    double density_kg_m3 = 0;
    double viscosity_m2_s = 0; ///< kinematic
    double conductivity_W_mK = 0;
    double thermal_m2_s = 0;     ///< thermal diffusivity
    double diffusivity_m2_s = 0; ///< of vapour
    double prandtl = 0, schmidt = 0;
};
AirProperties air_properties(double T_K);

} // namespace tidemark::air
