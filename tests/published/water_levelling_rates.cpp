// Small ripples on a level film die at the rate of lubrication, gravity and surface tension together:
//   s = (h³/3μ) (ρ g k² + γ k⁴)
// the limit of Orchard (1962, Appl. Sci. Res. A11, 451-464) for kh → 0; four depths and three lengths of wave. Below
// 17 mm surface tension outweighs gravity: at 3 mm by thirty times.
//
// Where kh > 0.3 (the deep, short ones) real water is slower than lubrication says; there the scheme is held to its
// own equation, and water_orchard1962.cpp to the full one where a film is thin.
#include "support/published.h"
#include "support/water_ripple.h"

#include <string>

using namespace scenes;

namespace {

double rate_1_s(double h, double k) {
    const double mu = rho_kg_m3 * nu_water_m2_s;
    return h * h * h / (3 * mu) * (rho_kg_m3 * gravity_m_s2 * k * k + gamma_N_m * std::pow(k, 4));
}

/// The rate at which a ripple along x with `cells` a wave dies, as a share of the formula's, over one decay in steps
/// of a tenth of it.
double measured_share(double depth, double wave, int cells) {
    auto p = with_surface_tension();
    p.tolerance_m = 5e-5 * depth;
    Ripple r(depth, wave, 0, 6 * wave, wave / cells, p);
    const double s = rate_1_s(depth, 2 * M_PI / wave), before = r.amplitude();
    for (int n = 0; n < 10; ++n)
        r.step(0.1 / s);
    return (std::pow(r.amplitude() / before, -0.1) - 1) / 0.1; // backward Euler: a factor 1/(1 + s dt) a step
}

} // namespace

// 2 % at 32 cells a wave: the five-point stencil misses (k dx)²/12 of k², once for gravity and twice for capillarity.
TEST_CASE("orchard 1962, thin limit: ripples on four depths and of three lengths level at their rate",
          "[published][water]") {
    for (double wave_mm : {1.0, 3.0, 10.0})
        for (double depth_um : {50.0, 100.0, 200.0, 400.0}) {
            INFO(depth_um << " um deep, waves of " << wave_mm << " mm");
            const std::string what =
                "ripples of " + std::to_string(std::lround(wave_mm)) + " mm on 50 to 400 um: rate";
            published::Check{what, "Orchard 1962, thin limit", "of its own"}.relative(
                1, measured_share(depth_um * 1e-6, wave_mm * 1e-3, 32), 0.02);
        }
}

// Smooth, no edge that moves: errors fall with the square of the cell and with the first power of the step. By the
// ratio of differences between three cells (Richardson 1911), so the formula's own error in time drops out.
TEST_CASE("orchard 1962, thin limit: second order in the cell", "[published][water]") {
    const double a = measured_share(100e-6, 3e-3, 8), b = measured_share(100e-6, 3e-3, 16),
                 c = measured_share(100e-6, 3e-3, 32);
    published::Check{"ripples: order of convergence, smooth film", "Orchard 1962, thin limit"}.between(
        1.8, 2.2, std::log2((b - a) / (c - b)));
}
