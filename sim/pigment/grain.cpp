#include "pigment/grain.h"

#include "grid/within.h"
#include "pigment/hold.h"
#include "pigment/stir.h"

#include <cmath>
#include <numbers>

namespace tidemark::pigment {

namespace {

constexpr grid::Allowed grain_size{1e-3, 1000, "µm", 1e-6};

void check(const materials::Pigment& p) {
    grid::within("pigment.density_kg_m3", p.density_kg_m3, {500, 20'000, "kg/m³"});
    grid::within("pigment.d50_m", p.d50_m, grain_size);
    grid::within("pigment.gsd", p.gsd, {1, 5});
    grid::within("pigment.staining", p.staining, {0, 1});
    grid::within("pigment.flocculation", p.flocculation, {0, 1});
}

} // namespace

double water_density_kg_m3(double temperature_K) {
    grid::within("temperature_K", temperature_K, {273.15, 423.15, "K"});
    const double t = temperature_K - 273.15;
    const double top =
        999.83952 +
        t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
    return top / (1 + 16.879850e-3 * t);
}

double water_viscosity_Pa_s(double temperature_K) {
    grid::within("temperature_K", temperature_K, {253.15, 383.15, "K"});
    const double r = temperature_K / 300;
    return 1e-6 * (280.68 * std::pow(r, -1.9) + 511.45 * std::pow(r, -7.7) + 61.131 * std::pow(r, -19.6) +
                   0.45903 * std::pow(r, -40.0));
}

double stokes_velocity_m_s(double density_kg_m3, double diameter_m, double temperature_K) {
    grid::within("density_kg_m3", density_kg_m3, {500, 20'000, "kg/m³"});
    grid::within("diameter_m", diameter_m, grain_size);
    return (density_kg_m3 - water_density_kg_m3(temperature_K)) * gravity_m_s2 * diameter_m * diameter_m /
           (18 * water_viscosity_Pa_s(temperature_K));
}

double diffusivity_m2_s(double diameter_m, double temperature_K) {
    grid::within("diameter_m", diameter_m, grain_size);
    return boltzmann_J_K * temperature_K / (3 * std::numbers::pi * water_viscosity_Pa_s(temperature_K) * diameter_m);
}

double floc_diameter_m(const materials::Pigment& p) { return p.d50_m * (1 + 2 * p.flocculation); }

double settling_velocity_m_s(const materials::Pigment& p, double temperature_K) {
    const double sigma = std::log(p.gsd);
    return floc_solid_share * stokes_velocity_m_s(p.density_kg_m3, floc_diameter_m(p), temperature_K) *
           std::exp(-2 * sigma * sigma);
}

GrainMotion grain_motion(const materials::Pigment& p, double temperature_K) {
    check(p);
    GrainMotion m;
    m.settle_m_s = static_cast<float>(settling_velocity_m_s(p, temperature_K));
    m.affinity = static_cast<float>(affinity(p));
    m.diffusivity_m2_s = static_cast<float>(diffusivity_m2_s(floc_diameter_m(p), temperature_K));
    m.inside_share = static_cast<float>(inside_share(p));
    m.stir_Pa = static_cast<float>(stir_threshold_Pa(p, temperature_K));
    m.per_density = static_cast<float>(1 / p.density_kg_m3);
    m.soak_1_s = static_cast<float>((1 - affinity(p)) / soak_time_s);
    return m;
}

} // namespace tidemark::pigment
