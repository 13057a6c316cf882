/// How a grain of pigment moves in water of its own accord: it sinks and it jitters.
///
///   sinks     v = (ρp - ρ) g d² / 18 µ                     Stokes 1851
///   crowded   v (1 - φ)^4.65                               Richardson & Zaki 1954, Re < 0.2
///   jitters   D = kT / 3πµd                                Einstein 1905
/// Flocs: in a wash grains clump to d50 (1 + 2 f) with a solid share of 0.4 (from memory), f the pigment's
/// flocculation, so they sink 0.4 (1 + 2 f)² times as fast as the grain. φ counts the water held in them.
///
/// Spread: sizes are lognormal by volume with σ = ln gsd, but a cell knows one mass, not classes. The speed used is
/// the one that keeps the mean time afloat, h E[1/v] = h exp(2σ²)/v50, hence v50 exp(-2σ²). It is the mean that
/// decides how far the film carries the pigment. The coarse part leaves sooner than this says, the fine part later.
///
/// Range   Stokes: Re = v d/ν below 0.2, grains up to some 60 µm at 3000 kg/m³; larger ones sink slower than this says.
///         Einstein: grains much larger than molecules, from 1 nm. Refused (grid/within.h): diameters beyond 1 nm to
///         1 mm, densities beyond 500 to 20 000 kg/m³, temperatures beyond the two fits below, gsd beyond 1 to 5,
///         staining and flocculation beyond 0 to 1.
#pragma once
#include "materials/pigment.h"
#include "pigment/select.h"

#include <cmath>

namespace tidemark::pigment {

constexpr double gravity_m_s2 = 9.80665;
constexpr double boltzmann_J_K = 1.380649e-23; ///< exact, SI 2019
constexpr double floc_solid_share = 0.4;       ///< from memory

double water_density_kg_m3(double temperature_K);  ///< Kell 1975, 0 ... 150 °C
double water_viscosity_Pa_s(double temperature_K); ///< Pátek et al. 2009 (IAPWS), 253.15 ... 383.15 K

double stokes_velocity_m_s(double density_kg_m3, double diameter_m, double temperature_K); ///< below 0: it rises
double diffusivity_m2_s(double diameter_m, double temperature_K);
double floc_diameter_m(const materials::Pigment&);
double settling_velocity_m_s(const materials::Pigment&, double temperature_K); ///< floc, spread as above, dilute

/// (1 - φ)^4.65, φ clamped to 0 ... 1, by square roots: y^4.625 (1 + 0.025 ln y), ln y ≈ 2 (y - 1)/(y + 1).
/// Within 2e-5 of the power.
inline float hindered(float volume_fraction) {
    const float y = 1.0f - smaller(larger(volume_fraction, 0.0f), 1.0f);
    const float root = std::sqrt(y), eighth = std::sqrt(std::sqrt(root)), y2 = y * y;
    return y2 * y2 * root * eighth * (1.0f + 0.05f * (y - 1.0f) / (y + 1.0f));
}

/// What the sweep needs of one pigment, at one temperature.
struct GrainMotion {
    float settle_m_s = 0;       ///< dilute, in water without gum
    float affinity = 0;         ///< for fibre, 0 ... 1 (hold.h)
    float diffusivity_m2_s = 0; ///< between the halves of the film
    float inside_share = 0;     ///< of what is drawn in with water: finer than the pores
    float stir_Pa = 1;          ///< shear that starts to lift it (stir.h)
    float per_density = 0;      ///< m³/kg
    float soak_1_s = 0;         ///< (1 - affinity)/soak_time_s (hold.h)
};
GrainMotion grain_motion(const materials::Pigment&, double temperature_K);

} // namespace tidemark::pigment
