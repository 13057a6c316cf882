// Water that swings in a parabolic bowl, without friction: its surface stays a plane that turns round the bowl
// (planar) or a paraboloid that breathes (radial), its shore moves up and down the dry slope.
//   bowl     z = -h0 (1 - r²/a²)
//   planar   h = (η h0/a²)(2x cos ωt + 2y sin ωt - η) - z,  u = ηω (-sin ωt, cos ωt),  ω = √(2 g h0)/a
//   radial   h = h0 (√(1-A²)/c - 1 - (r/a)² ((1-A²)/c² - 1)) - z,  c = 1 - A cos ωt,  ω = √(8 g h0)/a
// Thacker (1981) J. Fluid Mech. 107, 499-508.
#include "support/published.h"
#include "support/water_scenes.h"

#include <functional>

using namespace scenes;

namespace {

constexpr double g = 9.81, a_m = 1, h0_m = 0.1, eta_m = 0.5, A = (1 - 0.8 * 0.8) / (1 + 0.8 * 0.8), middle_m = 2;

double bowl(double x, double y) { return -h0_m * (1 - (x * x + y * y) / (a_m * a_m)); }
double planar_omega() { return std::sqrt(2 * g * h0_m) / a_m; }
double radial_omega() { return std::sqrt(8 * g * h0_m) / a_m; }

double planar(double x, double y, double t) {
    const double turn = planar_omega() * t, level = 2 * x * std::cos(turn) + 2 * y * std::sin(turn) - eta_m;
    return std::max(0.0, eta_m * h0_m / (a_m * a_m) * level - bowl(x, y));
}

double radial(double x, double y, double t) {
    const double c = 1 - A * std::cos(radial_omega() * t), r2 = (x * x + y * y) / (a_m * a_m);
    const double level = std::sqrt(1 - A * A) / c - 1 - r2 * ((1 - A * A) / (c * c) - 1);
    return std::max(0.0, h0_m * level - bowl(x, y));
}

struct Swing {
    double l2 = 0;          ///< of the depth over the bowl, by h0, after one period
    double middle = 0;      ///< error of the depth in the middle, by h0
    double shore_cells = 0; ///< how far off the shore is on the worst of four sides
    double mass_error = 0;
};

/// One period with n × n cells; `moving`: the water starts along +y with ηω.
Swing swing(int n, double omega, bool moving, const std::function<double(double, double, double)>& depth) {
    const double dx = 2 * middle_m / n, period = 2 * M_PI / omega;
    auto p = bare_film();
    p.inertia = true, p.nu_m2_s = 1e-12, p.tolerance_m = 2e-6, p.gravity_m_s2 = g;
    Scene s(2 * middle_m, 2 * middle_m, dx, p);
    const auto at = [&](int i) { return s.x(i) - middle_m; };
    for (int j = -1; j <= s.sheet.geometry.py; ++j)
        for (int i = -1; i <= s.sheet.geometry.px; ++i)
            s.sheet.relief_m(i, j) = static_cast<float>(bowl(at(i), at(j)));
    s.lay([&](double x, double y) { return depth(x - middle_m, y - middle_m, 0); });
    const int steps = static_cast<int>(std::ceil(period * std::sqrt(g * h0_m) / (0.25 * dx)));
    const double dt = period / steps, before = s.volume();
    if (moving) {
        for (int j = 0; j < s.ny(); ++j)
            for (int i = 0; i < s.nx(); ++i)
                s.sheet.flux_y_m2_s(i, j) = static_cast<float>(0.5 * (s.h(i, j) + s.h(i, j + 1)) * eta_m * omega);
        s.solver.start_with_fluxes(s.sheet, dt);
    }
    for (int k = 0; k < steps; ++k) {
        s.step(dt);
        if (k % 4 == 3)
            s.wake();
    }
    Swing w;
    double sum = 0;
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i)
            sum += std::pow(s.h(i, j) - depth(at(i), at(j), period), 2) * dx * dx;
    w.l2 = std::sqrt(sum / (M_PI * a_m * a_m)) / h0_m;
    w.middle = (s.h(n / 2, n / 2) - depth(at(n / 2), at(n / 2), period)) / h0_m;
    w.mass_error = s.volume() / before - 1;
    const double centre = moving ? eta_m : 0; // of the shore's circle, on the x axis
    for (int side = 0; side < 4; ++side) {
        const double fx = side == 0 ? 1 : side == 1 ? -1 : 0, fy = side == 2 ? 1 : side == 3 ? -1 : 0;
        double wet = 0;
        for (double r = 0; r < 1.4; r += 0.25 * dx) {
            const int i = static_cast<int>((middle_m + centre + r * fx) / dx);
            const int j = static_cast<int>((middle_m + r * fy) / dx);
            if (s.h(i, j) > 0.02 * h0_m)
                wet = r;
        }
        double exact = 0;
        for (double r = 0; r < 1.4; r += 0.25 * dx)
            if (depth(centre + r * fx, r * fy, period) > 0.02 * h0_m)
                exact = r;
        w.shore_cells = std::max(w.shore_cells, std::abs(wet - exact) / dx);
    }
    return w;
}

} // namespace

TEST_CASE("thacker 1981: a plane surface turns round a bowl, its shore with it", "[published][water]") {
    const Swing coarse = swing(100, planar_omega(), true, planar), fine = swing(200, planar_omega(), true, planar);
    const published::Check line{"bowl, planar: depth after a period (L2), 200 cells", "Thacker 1981", "% of h0"};
    line.at_most(2, 100 * fine.l2);
    published::Check{"bowl, planar: depth in the middle", "Thacker 1981", "% of h0"}.near(0, 100 * fine.middle, 1);
    published::Check{"bowl, planar: shore on the worst of four sides", "Thacker 1981", "cells"}.at_most(
        2, fine.shore_cells);
    published::Check{"bowl, planar: order of convergence", "Thacker 1981"}.at_least(0.9,
                                                                                    std::log2(coarse.l2 / fine.l2));
    CHECK(std::abs(fine.mass_error) < 1e-9);
}

TEST_CASE("thacker 1981: a paraboloid breathes in a bowl", "[published][water]") {
    const Swing coarse = swing(100, radial_omega(), false, radial), fine = swing(200, radial_omega(), false, radial);
    const published::Check line{"bowl, radial: depth after a period (L2), 200 cells", "Thacker 1981", "% of h0"};
    line.at_most(2, 100 * fine.l2);
    published::Check{"bowl, radial: order of convergence", "Thacker 1981"}.at_least(0.9,
                                                                                    std::log2(coarse.l2 / fine.l2));
    CHECK(std::abs(fine.mass_error) < 1e-9);
}
