// What a plan says of its washes before a run, against what the run dries to.
#include "judge/strength.h"

#include <catch2/catch.hpp>

#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

constexpr std::pair<const char*, double> washes[] = {{"PB29", 1.5}, {"PBr7-burnt-sienna", 2.0}, {"PY150", 0.8}}; // percent

/// One wash over a small level sheet of hot-pressed paper on a sealed board; mix 1.
plan::Plan one_wash(const char* pigment, double percent) {
    plan::Plan p = scene::small_sheet({{pigment, percent}}, "hot-pressed-300");
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 100e-6});
    return p;
}

/// Mean L* of the middle third of the sheet.
double in_the_middle(const sheet::SheetState& s, sheet::LookAs as) {
    const sheet::Look look = sheet::look(s, as);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    double sum = 0;
    int n = 0;
    for (int j = ny / 3; j < ny - ny / 3; ++j)
        for (int i = nx / 3; i < nx - nx / 3; ++i) sum += look.lstar(i, j), ++n;
    return sum / n;
}

} // namespace

// Ultramarine dries 1.7 L* darker than planned, 1.6 of them by its load: of 1.5 g/m² laid, 0.6 are left in the outermost
// millimetre of so small a sheet and 1.62 lie in its middle, most of that within the first twelve seconds.
TEST_CASE("a wash on white paper dries as dark as its plan says beforehand", "[law][rehearsal]") {
    for (const auto& [pigment, percent] : washes) {
        const plan::Plan p = one_wash(pigment, percent);
        const auto planned = judge::judge_strength(p, {0});
        REQUIRE(planned.size() == 1);
        const auto run = scene::played(p, 1e-3);
        INFO(pigment);
        CHECK(planned[0].on_paper);
        CHECK(planned[0].dry_L < planned[0].below_L - 5);
        CHECK(in_the_middle(run.sheet(), sheet::LookAs::dried) == Approx(planned[0].dry_L).margin(2));
    }
}

// A minute after it was laid: the pores are far from full, which leaves the paper below lighter than planned, most of all under a yellow.
TEST_CASE("a wash under its film looks as dark as its plan says beforehand", "[law][rehearsal]") {
    for (const auto& [pigment, percent] : washes) {
        const plan::Plan p = one_wash(pigment, percent);
        const auto planned = judge::judge_strength(p, {0});
        const auto run = scene::played(p, 1e-3, 60);
        INFO(pigment);
        REQUIRE(run.sheet().film_m(30, 15) > 0);
        CHECK(planned[0].wet_L < planned[0].dry_L - 2);
        CHECK(in_the_middle(run.sheet(), sheet::LookAs::as_now) == Approx(planned[0].wet_L).margin(2));
    }
}
