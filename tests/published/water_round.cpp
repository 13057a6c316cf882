// A round blob stays round: nothing in the equations knows the directions of the grid. Spread by gravity and surface
// tension over a thin film, no contact line in its way; no source is needed but symmetry. What a square grid does to
// it shows between its axes and its diagonals, which a four-sided stencil treats least alike.
#include "support/published.h"
#include "support/water_scenes.h"

using namespace scenes;

namespace {

/// Mean over four axes or four diagonals of the radius at which the blob is half as deep as in its middle.
double radius_m(Scene& s, double centre, bool diagonal) {
    const auto depth = [&](double x, double y) {
        const double u = x / s.cell() - 0.5, v = y / s.cell() - 0.5;
        const int i = static_cast<int>(std::floor(u)), j = static_cast<int>(std::floor(v));
        const double a = u - i, b = v - j;
        return (1 - b) * ((1 - a) * s.h(i, j) + a * s.h(i + 1, j)) +
               b * ((1 - a) * s.h(i, j + 1) + a * s.h(i + 1, j + 1));
    };
    double sum = 0;
    for (int side = 0; side < 4; ++side) {
        const double turn = M_PI / 2 * side + (diagonal ? M_PI / 4 : 0), half = 0.5 * depth(centre, centre);
        double r = 0;
        while (depth(centre + r * std::cos(turn), centre + r * std::sin(turn)) > half)
            r += 0.005e-3;
        sum += r;
    }
    return sum / 4;
}

} // namespace

TEST_CASE("a round blob stays round on a square grid, to 1 %", "[published][water]") {
    for (double cell_m : {1e-3, 0.5e-3})
        for (double depth_m : {100e-6, 300e-6, 500e-6}) {
            auto p = bare_film();
            p.gamma_N_m = 0.0727, p.inertia = true;
            const double centre = 24e-3, radius = 8e-3;
            Scene s(48e-3, 48e-3, cell_m, p);
            s.lay([&](double x, double y) {
                const double q = (std::pow(x - centre, 2) + std::pow(y - centre, 2)) / (radius * radius);
                return 20e-6 + depth_m * std::max(0.0, 1 - q);
            });
            const double before = radius_m(s, centre, false);
            for (double dt = 2e-4; s.clock_s < 2; dt = std::min(1.05 * dt, 0.1))
                s.run(1, dt, 1);
            const double axis = radius_m(s, centre, false), diagonal = radius_m(s, centre, true);
            INFO("cells of " << cell_m << " m, " << depth_m << " m deep: " << before << " to " << axis << " m");
            CHECK(axis > 1.1 * before); // it has spread
            published::Check{"round blob: diagonal over axis", "symmetry"}.near(1, diagonal / axis, 0.01);
        }
}
