#include <catch2/catch.hpp>

#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

/// A light wash on dry paper, then a darker stroke over the left half `minutes` after it.
double edge_mm(double minutes, double cell_m) {
    plan::Plan p = scene::small_sheet({{"PY42", 0.5}, {"PB15:3", 0.4}});
    const int left = scene::add_band(p, "left", 0, 0.030);
    scene::add_step(p, "light", 0, plan::Wash{.mix = 1, .film_m = 110e-6, .pace_m2_s = 10e-4});
    scene::add_step(p, "stroke", 2 + 60 * minutes, plan::Wash{.area = left, .mix = 2, .film_m = 60e-6, .pace_m2_s = 6e-4});
    const auto run = scene::played(p, cell_m);
    return scene::width_10_90_mm(scene::lightness_across(run.sheet()), cell_m);
}

} // namespace

// Common practice: the drier the sheet, the firmer the edge. By ordering, on two cell sizes; no width is pinned but that
// a stroke into a film is soft and one on a dry wash is hard. After 1 and 5 minutes both are soft and near each other
// (the stroke's own water carries the colour), so their order is asked of the finer cells only.
TEST_CASE("a stroke laid later into a drying wash has a narrower edge", "[behaviour][rehearsal]") {
    for (double cell_m : {0.5e-3, 1e-3}) {
        const double early = edge_mm(1, cell_m), later = edge_mm(5, cell_m), late = edge_mm(30, cell_m);
        INFO("cell " << cell_m * 1e3 << " mm: after 1, 5, 30 min: " << early << ", " << later << ", " << late << " mm");
        if (cell_m < 0.7e-3) CHECK(early > later);
        CHECK(early > 3);
        CHECK(later > 3);
        CHECK(late < 1);
    }
}
