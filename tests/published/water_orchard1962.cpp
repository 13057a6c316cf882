// How a ripple on a level film dies away.
//   viscous flow, exact in the depth:  s = ((γk + ρg/k)/2μ) (sinh kh cosh kh - kh)/(cosh² kh + k²h²)
//                                      Orchard (1962) Appl. Sci. Res. A11, 451-464
//   depth-averaged with inertia:       s² - (3ν/h²) s + (g k² + γ k⁴/ρ) h = 0, complex s: a damped oscillation
//
// The sheet's border is a pinned edge; what it does to the film is the same with and without the ripple, so the
// ripple is measured as the difference of the two, in the middle of the sheet.
#include "support/published.h"
#include "support/water_ripple.h"

using namespace scenes;
using published::Check;

namespace {

double orchard_1_s(double h, double k) {
    const double x = k * h, mu = rho_kg_m3 * nu_water_m2_s;
    return (gamma_N_m * k + rho_kg_m3 * gravity_m_s2 / k) / (2 * mu) * (std::sinh(x) * std::cosh(x) - x) /
           (std::cosh(x) * std::cosh(x) + x * x);
}

} // namespace

// Compared after a time of one decay: the rate behind (1 + s dt)^-n = a. Tolerances: the five-point stencil misses
// (k dx)²/12 of k² once for gravity and twice for capillarity (0.6 to 1.3 % at 16 to 24 cells a wave), and the
// depth-averaged model overstates Orchard's rate by up to 0.6 % at kh = 0.09: 2 %.
TEST_CASE("orchard 1962: ripples of 4, 8 and 16 mm die at the viscous rate", "[published][water]") {
    struct Case {
        double depth, wave, width, cell;
    };
    for (const Case& c :
         {Case{60e-6, 4e-3, 24e-3, 0.25e-3}, Case{100e-6, 8e-3, 48e-3, 0.5e-3}, Case{150e-6, 16e-3, 96e-3, 1e-3}})
        for (double angle : {0.0, M_PI / 2, M_PI / 4}) {
            Ripple r(c.depth, c.wave, angle, c.width, c.cell, with_surface_tension());
            const double s = orchard_1_s(c.depth, 2 * M_PI / c.wave), before = r.amplitude(), dt = 0.1 / s;
            const int steps = 10;
            for (int n = 0; n < steps; ++n)
                r.step(dt);
            const double factor = std::pow(r.amplitude() / before, -1.0 / steps), measured = (factor - 1) / dt;
            INFO("wave " << c.wave << " m, angle " << angle << ", rate over Orchard's " << measured / s);
            Check{"rate at which ripples of 4, 8, 16 mm level", "Orchard 1962", "1/s"}.relative(s, measured, 0.02);
        }
}

// f = 3ν/h² and ω0² = (g k² + γ k⁴/ρ) h: the mode swings as exp(-f t/2) cos(ω t + φ), ω² = ω0² - f²/4.
// Tolerance 5 %: backward Euler adds dt ω²/2 to the rate, 1.6 to 3 % of it at this step.
TEST_CASE("a deep film swings back with the frequency and damping of the depth-averaged equations",
          "[published][water]") {
    auto p = with_surface_tension();
    p.inertia = true;
    const double h = 200e-6, wave = 10e-3, k = 2 * M_PI / wave, f = 3 * nu_water_m2_s / (h * h);
    const double omega = std::sqrt((gravity_m_s2 * k * k + gamma_N_m / rho_kg_m3 * std::pow(k, 4)) * h - f * f / 4);
    Ripple r(h, wave, 0, 48e-3, 0.5e-3, p);
    const double dt = 0.4e-3, first = r.amplitude();
    // a(t) = a0 exp(-ft/2) (cos ωt + f/2ω sin ωt): first zero where tan ωt = -2ω/f, first trough at π/ω.
    double zero = 0, trough = 0, t = 0, last = first;
    while (t < 1.3 * M_PI / omega) {
        r.step(dt);
        t += dt;
        const double a = r.amplitude();
        if (zero == 0 && a < 0)
            zero = t - dt * a / (a - last);
        trough = std::min(trough, a), last = a;
    }
    const std::string averaged = "depth-averaged equations with inertia";
    Check{"ripple of 10 mm on a film of 0.2 mm: level after", averaged, "ms"}.relative(
        1e3 * (M_PI - std::atan(2 * omega / f)) / omega, 1e3 * zero, 0.05);
    const double swing = std::exp(-0.5 * f * M_PI / omega);
    Check{"ripple of 10 mm on a film of 0.2 mm: swings back to", averaged}.near(
        swing, -trough / first, (0.05 * M_PI * 0.5 * f / omega + 0.05) * swing);
}
