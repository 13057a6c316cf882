// A uniform film on an incline: mean speed g h² sin α/3ν (Nusselt 1916, Z. VDI 60); from rest the depth-averaged film
// reaches it as 1 - exp(-3ν t/h²), 99 % after ln(100) h²/3ν.
//
// The sheet has edges; a uniform film far from them does not know. What the edges do travels at three times the mean
// speed (a kinematic wave) and stays outside the middle for as long as is stepped here.
#include "support/published.h"
#include "support/water_scenes.h"

using namespace scenes;
using published::Check;

namespace {

double mean_speed_m_s(double depth_m, double degrees) {
    return gravity_m_s2 * depth_m * depth_m * std::sin(grid::rad_from_deg(degrees)) / (3 * nu_water_m2_s);
}

Scene film(double depth_m, double degrees, double direction_rad, const water::FilmParams& p) {
    Scene s(0.016, 0.016, 0.5e-3, p);
    s.tilt(degrees, direction_rad);
    s.lay([&](double, double) { return depth_m; });
    return s;
}

} // namespace

// Tolerance 0.1 %: the friction law is the scheme's own, so only rounding is left.
TEST_CASE("nusselt 1916: a uniform film runs at g h² sin α/3ν", "[published][water]") {
    for (double degrees : {2.0, 8.0, 15.0})
        for (double depth : {50e-6, 100e-6, 200e-6})
            for (double direction : {0.0, M_PI / 2, M_PI / 6}) {
                Scene s = film(depth, degrees, direction, bare_film());
                s.run(3, 0.5e-3);
                const double qx = s.sheet.flux_x_m2_s(16, 16), qy = s.sheet.flux_y_m2_s(16, 16);
                const double u = std::hypot(qx, qy) / depth;
                INFO(degrees << " degrees, " << depth << " m");
                Check{"speed of a film down a board of 2 to 15 degrees", "Nusselt 1916", "mm/s"}.relative(
                    1e3 * mean_speed_m_s(depth, degrees), 1e3 * u, 1e-3);
                CHECK(std::atan2(qy, qx) == Approx(direction).margin(1e-3));
            }
}

// Tolerance: backward Euler reaches 99 % later by a share dt/(2 h²/3ν) = 0.75 %; the step that passes it is one of
// 300.
TEST_CASE("nusselt 1916: with inertia 99 % of the speed is reached after 4.6 h²/3ν", "[published][water]") {
    auto p = bare_film();
    p.inertia = p.inertia_on_tilt = true;
    for (double depth : {60e-6, 100e-6}) {
        const double lag = depth * depth / (3 * nu_water_m2_s), dt = 0.015 * lag, full = mean_speed_m_s(depth, 8);
        Scene s = film(depth, 8, 0, p);
        double t = 0, half = 0, last = 0;
        while (t < 8 * lag) {
            s.step(dt);
            const double u = s.sheet.flux_x_m2_s(16, 16) / depth;
            if (half == 0 && u > 0.5 * full)
                half = t + dt * (0.5 * full - last) / (u - last);
            if (u > 0.99 * full)
                break;
            last = u, t += dt;
        }
        Check{"time of a film from rest to half its speed", "Nusselt 1916 with inertia", "ms"}.relative(
            1e3 * std::log(2.0) * lag, 1e3 * half, 0.02);
        Check{"time of a film from rest to 99 % of its speed", "Nusselt 1916 with inertia", "ms"}.relative(
            1e3 * std::log(100.0) * lag, 1e3 * (t + dt), 0.02);
    }
}

// A small bump on the film travels three times as fast as the water (a kinematic wave). Tolerance 1 %: the crest of a
// bump of 0.5 % runs 0.5 % faster than its foot; what the upper edge does to the film is still far away.
TEST_CASE("lighthill & whitham 1955: a bump on a draining film travels at three times the mean speed",
          "[published][water]") {
    const double depth = 60e-6, u = mean_speed_m_s(depth, 8);
    auto p = bare_film();
    p.tolerance_m = 5e-9;
    Scene s(0.096, 8e-3, 0.5e-3, p);
    s.tilt(8, 0);
    s.lay([&](double x, double) { return depth * (1 + 0.005 * std::exp(-std::pow((x - 0.036) / 4e-3, 2))); });
    const auto centre = [&] {
        double moment = 0, sum = 0;
        for (int i = 40; i < 130; ++i)
            moment += (s.h(i, 8) - depth) * s.x(i), sum += s.h(i, 8) - depth;
        return moment / sum;
    };
    const double start = centre();
    s.run(60, 0.25 * s.cell() / (3 * u));
    Check{"speed of a bump on a film, over the film's", "Lighthill & Whitham 1955"}.relative(
        3, (centre() - start) / s.clock_s / u, 0.01);
}
