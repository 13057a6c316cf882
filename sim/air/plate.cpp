#include "air/plate.h"

#include "air/moist_air.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidemark::air {
namespace {

constexpr double stefan_boltzmann_W_m2K4 = 5.670374e-8;

void check(const materials::Room& room, double length_m) {
    grid::within("room.temperature_K", room.temperature_K, {273.15, 353.15, "K"});
    grid::within("room.humidity", room.humidity, {0, 1});
    grid::within("room.air_m_s", room.air_m_s, {0, 20, "m/s"});
    grid::within("room.sun_W_m2", room.sun_W_m2, {0, 1200, "W/m²"});
    grid::within("room.longwave_W_m2", room.longwave_W_m2, {-200, 200, "W/m²"});
    grid::within("room.turbulence", room.turbulence, {0.5, 3});
    grid::within("length_m", length_m, {1, 10'000, "mm", 1e-3});
}

void check(const PlateSurface& surface) {
    grid::within("activity", surface.activity, {0, 1});
    grid::within("faces", surface.faces, {1, 2});
    grid::within("sun_absorbed", surface.sun_absorbed, {0, 1});
    grid::within("emissivity", surface.emissivity, {0, 1});
}

struct Transfer {
    double heat_W_m2K, vapour_m_s, diffusivity_m2_s;
};

double cube_sum(double a, double b, double c) { return std::cbrt(a * a * a + b * b * b + c * c * c); }

Transfer transfer(const materials::Room& room, double L, const PlateSurface& surface, double Ts) {
    const double T = room.temperature_K;
    const AirProperties a = air_properties(0.5 * (T + Ts));
    const double forced = room.turbulence * 0.664 * std::sqrt(room.air_m_s * L / a.viscosity_m2_s);
    double nu_still = 0, sh_still = 0, diffusion = 0;
    if (surface.still_air) {
        const auto virtual_K = [](double T_K, double e) { return T_K * (1 + 0.378 * e / atmosphere_Pa); };
        const double lift_K = std::abs(virtual_K(Ts, surface.activity * saturation_pressure_Pa(Ts)) -
                                       virtual_K(T, room.humidity * saturation_pressure_Pa(T)));
        const double l = L / 4; // area / perimeter of a square
        const double Ra = 9.80665 * lift_K / (0.5 * (T + Ts)) * l * l * l / (a.viscosity_m2_s * a.thermal_m2_s);
        nu_still = 0.27 * std::sqrt(std::sqrt(Ra)) * L / l;
        sh_still = nu_still * std::sqrt(std::sqrt(a.schmidt / a.prandtl));
        diffusion = 8 / std::numbers::pi;
    }
    const double nu = cube_sum(forced * std::cbrt(a.prandtl), nu_still, diffusion);
    const double sh = cube_sum(forced * std::cbrt(a.schmidt), sh_still, diffusion);
    return {nu * a.conductivity_W_mK / L, sh * a.diffusivity_m2_s / L, a.diffusivity_m2_s};
}

struct Balance {
    double surplus_W_m2; ///< heat brought less heat taken
    Evaporation evaporation;
};

Balance balance(const materials::Room& room, double L, const PlateSurface& surface, double Ts) {
    const double T = room.temperature_K;
    const Transfer k = transfer(room, L, surface, Ts);
    const double E =
        k.vapour_m_s * (vapour_density_kg_m3(Ts, surface.activity) - vapour_density_kg_m3(T, room.humidity));
    const double mean_K = 0.5 * (T + Ts);
    const double radiative =
        surface.radiates ? 4 * surface.emissivity * stefan_boltzmann_W_m2K4 * mean_K * mean_K * mean_K : 0;
    const double surplus = surface.faces * ((k.heat_W_m2K + radiative) * (T - Ts) - E * latent_heat_J_kg(Ts)) +
                           surface.sun_absorbed * room.sun_W_m2 + room.longwave_W_m2;
    return {surplus, {E, Ts, k.vapour_m_s, k.vapour_m_s > 0 ? k.diffusivity_m2_s / k.vapour_m_s : 0}};
}

} // namespace

Evaporation plate_evaporation(const materials::Room& room, double length_m, const PlateSurface& surface) {
    check(room, length_m), check(surface);
    if (!surface.cooled)
        return balance(room, length_m, surface, room.temperature_K).evaporation;
    double low = room.temperature_K - 60, high = room.temperature_K + 80; // wide enough for 1200 W/m² in still air
    for (int n = 0; n < 60; ++n) {
        const double middle = 0.5 * (low + high);
        (balance(room, length_m, surface, middle).surplus_W_m2 > 0 ? low : high) = middle;
    }
    return balance(room, length_m, surface, 0.5 * (low + high)).evaporation;
}

double plate_stress_Pa(const materials::Room& room, double length_m) {
    check(room, length_m);
    if (room.air_m_s <= 0)
        return 0;
    constexpr double gas_J_kgK = 287.05; // of dry air
    const double density_kg_m3 = atmosphere_Pa / (gas_J_kgK * room.temperature_K);
    const double reynolds = room.air_m_s * length_m / air_properties(room.temperature_K).viscosity_m2_s;
    return room.turbulence * 1.328 / std::sqrt(reynolds) * 0.5 * density_kg_m3 * room.air_m_s * room.air_m_s;
}

} // namespace tidemark::air
