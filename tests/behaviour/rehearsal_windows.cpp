#include <catch2/catch.hpp>

#include "sheet/stage.h"
#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

/// Minutes until the sheen of a wash over everything has gone.
double sheen_min(plan::Wet wet, bool wetted) {
    plan::Plan p = scene::small_sheet({{"PB15:3", 0.1}});
    if (wetted) scene::add_step(p, "wet", 0, wet);
    scene::add_step(p, "wash", 60, plan::Wash{.mix = 1, .film_m = 110e-6, .pace_m2_s = 20e-4});
    const auto run = scene::played(p, 1e-3);
    for (const auto& s : run.record().stages)
        if (s.time_s > 90 && s.area == plan::whole_sheet && sheet::has_reached(s.share, sheet::CellStage::moist))
            return (s.time_s - 60) / 60;
    return 0;
}

/// Film in the lowest fifth of the sheet over that in the highest fifth, a minute after a wash.
double low_over_high(double tilt_rad) {
    plan::Plan p = scene::small_sheet({{"PB15:3", 0.1}}, "hot-pressed-300");
    p.tilt_rad = tilt_rad;
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 150e-6, .pace_m2_s = 20e-4});
    const auto run = scene::played(p, 0.5e-3, 60);
    const auto& s = run.sheet();
    double low = 0, high = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            if (j >= s.geometry.ny * 4 / 5) low += s.film_m(i, j);
            if (j < s.geometry.ny / 5) high += s.film_m(i, j);
        }
    return low / high;
}

} // namespace

// Common practice: wetting the back keeps the front open longer than wetting the front alone.
TEST_CASE("wetting both faces lengthens the window, more than the front alone", "[behaviour][rehearsal]") {
    const double dry = sheen_min({}, false), front = sheen_min({.side = plan::Side::front, .water_kg_m2 = 0.12}, true),
                 both = sheen_min({.side = plan::Side::both, .water_kg_m2 = 0.24}, true);
    INFO("sheen for " << dry << " min on dry paper, " << front << " front wetted, " << both << " both");
    CHECK(front > dry);
    CHECK(both > front);
}

// Common practice: on a tilted board the bead gathers at the low edge.
TEST_CASE("a tilted board gathers a bead at its low edge", "[behaviour][rehearsal]") {
    const double level = low_over_high(0), tilted = low_over_high(0.14);
    INFO("film in the lowest fifth over the highest: level " << level << ", at 8 degrees " << tilted);
    CHECK(level == Approx(1).margin(0.1));
    CHECK(tilted > 5);
}
