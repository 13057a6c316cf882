// Backward Euler on a decaying mode multiplies it by 1/(1 + s dt): at any step it shrinks and keeps its sign
// (Dahlquist 1963: A-stable; strongly damped, L-stable). With inertia the mode is an oscillation, and a step longer
// than its period must fall to the level surface as well.
#include "support/water_scenes.h"

using namespace scenes;

TEST_CASE("levelling is damped at any step: a rough film falls to level and never grows", "[published][water]") {
    for (double dt : {1e-3, 0.05, 1.0, 4.0})
        for (double depth : {60e-6, 300e-6})
            for (bool inertia : {false, true}) {
                auto p = bare_film();
                p.inertia = inertia;
                Scene s(0.032, 0.032, 0.5e-3, p);
                // Waves of many lengths, 10 % of the depth each; no surface tension, so the border is a wall.
                s.lay([&](double x, double y) {
                    const double k = M_PI / 0.032;
                    return depth * (1 + 0.1 * (std::cos(k * x) + std::cos(7 * k * y) +
                                               std::cos(19 * k * x) * std::cos(23 * k * y)));
                });
                const auto unevenness = [&] { // mean square of the surface, over the depth's: gravity's energy
                    double sum = 0;
                    for (int j = 0; j < s.ny(); ++j)
                        for (int i = 0; i < s.nx(); ++i)
                            sum += std::pow(s.h(i, j) / depth - 1, 2);
                    return sum / (s.nx() * s.ny());
                };
                INFO("dt " << dt << " s, depth " << depth << " m, inertia " << inertia);
                const double start = unevenness(), unsolved = std::pow(3 * p.tolerance_m / depth, 2);
                // Water in motion may climb again while steps are shorter than the friction's time.
                const bool overdamped = !inertia || dt > depth * depth / (3 * nu_water_m2_s);
                double last = start;
                bool grew = false;
                for (int n = 0; n < 40; ++n) {
                    s.step(dt);
                    const double now = unevenness();
                    grew |= overdamped && now > last + unsolved;
                    last = now;
                }
                CHECK_FALSE(grew);
                // Forty steps take from the slowest mode (half a wave across the sheet) at least this much; twice it,
                // for a wave of a tenth of the depth is not quite linear.
                const double k = M_PI / 0.032, rate = gravity_m_s2 * std::pow(depth, 3) * k * k / (3 * nu_water_m2_s);
                if (overdamped)
                    CHECK(last < 2 * start * std::pow(1 + rate * dt, -80) + unsolved);
            }
}
