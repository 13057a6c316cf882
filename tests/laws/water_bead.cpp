// What a solve leaves over is some micrometres of depth, cell by cell; in a bead they stand for pressures that would
// move decimetres in a step.
#include <catch2/catch.hpp>

#include "water/flow.h"

#include <cmath>

using namespace tidemark;

// 2.4 cycles a step; 5.3 where each solve has to find by itself what the last one left over.
TEST_CASE("a bead at rest costs a solve few cycles, for it knows what the last one left over", "[law][water]") {
    auto s = sheet::SheetState::make(0.064, 0.064, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
    s.tilt_rad = 8 * M_PI / 180, s.tilt_direction_rad = M_PI / 2;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            s.film_m(i, j) = 100e-6f;
            s.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::wetted);
        }
    s.wake();
    const auto params = water::FilmParams::of({});
    water::FilmSolver solver(s, params);
    solver.wake(s, params);
    double dt = 0.02, deepest = 0;
    int cycles = 0, steps = 0;
    for (double t = 0; t < 900; t += dt, ++steps) {
        water::StepResult r;
        while (!(r = solver.advance(s, params, dt)).accepted) {
            dt *= 0.5;
            REQUIRE(dt > 1e-5);
        }
        cycles += r.cycles;
        dt = std::min({1.2 * dt, 1.0, r.speed_m_s > 0 ? 4 * s.geometry.cell_m / r.speed_m_s : 1.0});
        for (int j = 0; j < s.geometry.ny; ++j)
            for (int i = 0; i < s.geometry.nx; ++i)
                s.film_m(i, j) = std::max(0.0f, s.film_m(i, j) - static_cast<float>(0.3e-6 * dt));
        for (int i = 0; i < s.geometry.nx; ++i) deepest = std::max<double>(deepest, s.film_m(i, s.geometry.ny - 5));
    }
    INFO("deepest " << deepest * 1e6 << " um, " << steps << " steps, " << cycles << " cycles");
    CHECK(deepest > 400e-6);
    CHECK(cycles < 3.5 * steps);
}
