#include <catch2/catch.hpp>

#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

struct Rim { double edge, inside; }; ///< L* of the darkest column near the edge; of the wash behind it

/// A generous wash of a fine pigment on the left 35 mm; the right is dry, or has been wetted.
Rim rim(bool surround_wet, double cell_m) {
    plan::Plan p = scene::small_sheet({{"PB15:3", 0.2}}, "hot-pressed-300");
    const int left = scene::add_band(p, "left", 0, 0.035), right = scene::add_band(p, "right", 0.035, 0.060);
    if (surround_wet) scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = 0.2, .area = right});
    scene::add_step(p, "wash", 5, plan::Wash{.area = left, .mix = 1, .film_m = 250e-6, .pace_m2_s = 10e-4});
    const auto run = scene::played(p, cell_m);
    const auto l = scene::lightness_across(run.sheet());
    const int edge = static_cast<int>(0.035 / cell_m);
    Rim r{100, 0};
    for (int i = edge - static_cast<int>(3e-3 / cell_m); i < edge; ++i) r.edge = std::min(r.edge, l[i]);
    const int from = static_cast<int>(0.012 / cell_m), to = static_cast<int>(0.022 / cell_m);
    for (int i = from; i < to; ++i) r.inside += l[i] / (to - from);
    return r;
}

} // namespace

// Deegan et al. (1997): a pinned edge that dries draws water, and what it carries, outwards. No edge term draws it here.
TEST_CASE("a generous wash on dry paper dries with a dark rim, on a wet surround without", "[behaviour][rehearsal]") {
    for (double cell_m : {0.5e-3, 1e-3}) {
        const Rim dry = rim(false, cell_m), wet = rim(true, cell_m);
        INFO("cell " << cell_m * 1e3 << " mm: rim on dry " << dry.inside - dry.edge << ", on wet " << wet.inside - wet.edge);
        CHECK(dry.inside - dry.edge > (cell_m < 0.7e-3 ? 1.5 : 0.5)); // a rim is about half a millimetre wide
        CHECK(wet.inside - wet.edge < 0.5);
    }
}
