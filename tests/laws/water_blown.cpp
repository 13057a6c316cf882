// Air that blows along a film drags it.
#include "support/water_scenes.h"

using namespace scenes;

// Levich (1962), Physicochemical hydrodynamics: a film under a surface stress flows with q = τ h²/2μ. Between two
// places of an even film, far from the ends, so much passes.
TEST_CASE("levich 1962: a blown film carries stress x depth squared over twice the viscosity", "[published][water]") {
    for (const bool along_x : {true, false})
        for (const double sign : {1.0, -1.0}) {
            water::FilmParams p = bare_film();
            (along_x ? p.air_stress_x_Pa : p.air_stress_y_Pa) = sign * 0.02;
            Scene s(along_x ? 0.064 : 0.016, along_x ? 0.016 : 0.064, 0.5e-3, p);
            const double depth_m = 100e-6;
            s.lay([&](double, double) { return depth_m; });
            const auto before = [&] { // m² on the lee side of the middle, of a row
                double sum = 0;
                for (int k = 64; k < 128; ++k)
                    sum += (along_x ? s.h(sign > 0 ? k : 127 - k, 16) : s.h(16, sign > 0 ? k : 127 - k)) * s.cell();
                return sum;
            };
            const double had = before();
            const double all = s.volume();
            for (int n = 0; n < 40; ++n)
                REQUIRE(s.step(0.1).accepted);
            const double expected_m2_s = 0.02 * depth_m * depth_m / (2 * 998.2 * nu_water_m2_s);
            CHECK((before() - had) / 4 == Approx(expected_m2_s).epsilon(0.02)); // ρ is 1000 in the film
            CHECK(s.volume() == Approx(all).epsilon(1e-6));
        }
}

TEST_CASE("a stress too weak for the held water moves nothing", "[law][water]") {
    water::FilmParams p = bare_film();
    p.air_stress_x_Pa = 0.02, p.held_m = 30e-6;
    Scene s(0.032, 0.016, 0.5e-3, p);
    s.lay([](double x, double) { return x < 0.016 ? 28e-6 : 10e-6; });
    const float was = s.h(20, 16);
    for (int n = 0; n < 10; ++n)
        REQUIRE(s.step(0.5).accepted);
    CHECK(s.h(20, 16) == was);
}
