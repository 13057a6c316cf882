#include "air/moist_air.h"

#include <cmath>

namespace tidemark::air {
namespace {

constexpr double gas_J_molK = 8.314462618;
constexpr double water_kg_mol = 0.01801528, air_kg_mol = 0.0289647;
constexpr double heat_capacity_J_kgK = 1006.0;

} // namespace

double saturation_pressure_Pa(double T) {
    grid::within("T_K", T, air_K);
    return std::exp(-5800.2206 / T + 1.3914993 - 4.8640239e-2 * T + 4.1764768e-5 * T * T - 1.4452093e-8 * T * T * T +
                    6.5459673 * std::log(T));
}

double vapour_density_kg_m3(double T, double humidity) {
    grid::within("humidity", humidity, {0, 1});
    return humidity * saturation_pressure_Pa(T) * water_kg_mol / (gas_J_molK * T);
}

double humidity_ratio(double e) {
    grid::within("vapour_pressure_Pa", e, {0, 100, "kPa", 1e3});
    return 0.621945 * e / (atmosphere_Pa - e);
}

double wet_bulb_K(double T_K, double humidity) {
    grid::within("T_K", T_K, {273.15, 353.15, "K"});
    grid::within("humidity", humidity, {0, 1});
    const double t = T_K - 273.15;
    const double W = humidity_ratio(humidity * saturation_pressure_Pa(T_K));
    const auto ratio_if = [t](double tw) { // humidity ratio of the air if its wet bulb were tw (degrees Celsius)
        const double Ws = humidity_ratio(saturation_pressure_Pa(tw + 273.15));
        return ((2501 - 2.326 * tw) * Ws - 1.006 * (t - tw)) / (2501 + 1.86 * t - 4.186 * tw);
    };
    double low = t - 45, high = t;
    for (int n = 0; n < 60; ++n) {
        const double middle = 0.5 * (low + high);
        (ratio_if(middle) < W ? low : high) = middle;
    }
    return 0.5 * (low + high) + 273.15;
}

double latent_heat_J_kg(double T_K) {
    grid::within("T_K", T_K, air_K);
    return 2500.9e3 - 2364.0 * (T_K - 273.15);
}

double vapour_diffusivity_m2_s(double T_K) {
    grid::within("T_K", T_K, air_K);
    return 1.87e-10 * std::pow(T_K, 2.072);
}

AirProperties air_properties(double T) {
    grid::within("T_K", T, air_K);
    const double root = std::pow(T / 273.15, 1.5);
    AirProperties a;
    a.density_kg_m3 = atmosphere_Pa * air_kg_mol / (gas_J_molK * T);
    a.viscosity_m2_s = 1.716e-5 * root * (273.15 + 110.4) / (T + 110.4) / a.density_kg_m3;
    a.conductivity_W_mK = 0.02414 * root * (273.15 + 194) / (T + 194);
    a.thermal_m2_s = a.conductivity_W_mK / (a.density_kg_m3 * heat_capacity_J_kgK);
    a.diffusivity_m2_s = vapour_diffusivity_m2_s(T);
    a.prandtl = a.viscosity_m2_s / a.thermal_m2_s;
    a.schmidt = a.viscosity_m2_s / a.diffusivity_m2_s;
    return a;
}

} // namespace tidemark::air
