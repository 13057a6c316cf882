// A lake at rest stays at rest: over any relief, with dry crests, on any board. A scheme that balances pressure
// against slope only approximately makes currents of its own there. Bermudez & Vazquez (1994) Computers & Fluids 23,
// 1049-1071; Audusse et al. (2004) SIAM J. Sci. Comput. 25, 2050-2065.
//
// Without surface tension and retention: a dry crest next to water carries a meniscus, which is physics, not rest.
#include "support/published.h"
#include "support/water_scenes.h"

using namespace scenes;
using published::Check;

namespace {

constexpr double tolerance_m = 2e-9; // what a step may leave unsolved; ten roundings of a depth of 2 mm

struct Drift {
    double depth_m = 0, flux_m2_s = 0, deepest_m = 0;
    int dry = 0; ///< cells of bare relief inside the sheet
};

/// A lake cut by the plane normal to gravity, at `level` above the mean relief in the middle of the sheet.
Drift drift(double degrees, double direction_rad, double level_m, bool inertia) {
    auto p = bare_film();
    p.inertia = p.inertia_on_tilt = inertia, p.tolerance_m = tolerance_m;
    materials::Paper paper = smooth_paper();
    paper.relief_rms_m = 40e-6, paper.relief_corr_m = 2e-3;
    Scene s(0.024, 0.032, 0.5e-3, p, paper, 7);
    s.tilt(degrees, direction_rad);
    const double steep = std::tan(grid::rad_from_deg(degrees));
    const double ex = steep * std::cos(direction_rad), ey = steep * std::sin(direction_rad);
    s.lay([&](double x, double y) {
        const int i = static_cast<int>(x / s.cell()), j = static_cast<int>(y / s.cell());
        return level_m + ex * (x - 0.012) + ey * (y - 0.016) - s.sheet.relief_m(i, j);
    });
    const auto start = s.sheet.film_m;
    Drift d;
    for (int n = 0; n < 200; ++n) {
        const double dt[] = {0.01, 0.1, 0.3, 1.0};
        s.step(dt[n / 50]);
        if (n % 10 == 9)
            s.wake();
        d.flux_m2_s = std::max(d.flux_m2_s, s.largest_flux());
    }
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx(); ++i) {
            d.depth_m = std::max(d.depth_m, std::abs(static_cast<double>(s.h(i, j)) - start(i, j)));
            d.deepest_m = std::max<double>(d.deepest_m, start(i, j));
            d.dry += start(i, j) == 0;
        }
    return d;
}

/// What rounding may do. A depth is a float, and a step leaves up to its tolerance unsolved: depths may wander by a
/// few of these. The pressure g h is a float too, and its last place, taken for a slope over one cell, drives the
/// flux h³/3ν times as much through a face of the deepest water.
void check_rest(const std::string& lake, const Drift& d) {
    const double last_place = 1.2e-7 * d.deepest_m, drive = gravity_m_s2 * 2 * last_place / 0.5e-3;
    INFO("depth moved " << d.depth_m << " m, flux " << d.flux_m2_s << " m2/s, deepest " << d.deepest_m << " m");
    CHECK(d.flux_m2_s < std::pow(d.deepest_m, 3) / (3 * nu_water_m2_s) * drive);
    Check{lake + ": depth moved in 200 steps", "Bermudez & Vazquez 1994, Audusse et al. 2004", "µm"}.near(
        0, 1e6 * d.depth_m, 1e6 * (2 * tolerance_m + 4 * last_place));
}

} // namespace

TEST_CASE("lake at rest: still water over relief with dry crests stays still on a level board",
          "[published][water]") {
    for (double level : {200e-6, 30e-6})
        for (bool inertia : {false, true}) {
            const Drift d = drift(0, 0, level, inertia);
            if (level < 100e-6)
                REQUIRE(d.dry > 100);
            check_rest("still water over relief, level", d);
        }
}

TEST_CASE("lake at rest: a pool at the foot of a tilted board stays still", "[published][water]") {
    for (double direction : {0.0, M_PI / 2, 2.3})
        for (bool inertia : {false, true}) {
            const Drift d = drift(8, direction, 100e-6, inertia);
            INFO("downhill at " << direction << " rad");
            REQUIRE(d.dry > 100);
            check_rest("a pool at the foot of a board of 8 degrees", d);
        }
}
