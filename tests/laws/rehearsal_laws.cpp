#include <catch2/catch.hpp>

#include <cstring>

#include <omp.h>

#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

plan::Plan two_washes(double tilt_rad) {
    plan::Plan p = scene::small_sheet({{"PB29", 1.5}, {"PY150", 0.6}});
    p.tilt_rad = tilt_rad;
    p.height_m = 0.090, p.width_m = 0.120; // enough awake cells for more than one thread
    const int left = scene::add_band(p, "left", 0.010, 0.050, 0.010);
    scene::add_step(p, "wet", 0, plan::Wet{.side = plan::Side::both, .water_kg_m2 = 0.15});
    scene::add_step(p, "one", 30, plan::Wash{.mix = 1, .film_m = 110e-6, .pace_m2_s = 20e-4, .travel = plan::Travel::downhill});
    scene::add_step(p, "two", 90, plan::Wash{.area = left, .mix = 2, .film_m = 90e-6, .pace_m2_s = 10e-4,
                                             .travel = plan::Travel::from_point, .from_x_m = 0.03, .from_y_m = 0.02});
    scene::add_step(p, "drops", 120, plan::Charge{.area = left, .mix = 1, .count = 6, .drop_m3 = 8e-9});
    return p;
}

template <class T> bool same(const grid::Field<T>& a, const grid::Field<T>& b) {
    for (int j = 0; j < a.ny(); ++j)
        if (std::memcmp(a.row(j), b.row(j), sizeof(T) * a.nx()) != 0) return false;
    return true;
}

} // namespace

TEST_CASE("the same plan gives the same bytes for one and two threads", "[law][rehearsal]") {
    for (double tilt : {0.0, 0.1}) {
        const plan::Plan p = two_washes(tilt);
        omp_set_num_threads(1);
        const auto one = scene::played(p, 0.7e-3, 200);
        omp_set_num_threads(2);
        const auto two = scene::played(p, 0.7e-3, 200);
        CHECK(same(one.sheet().film_m, two.sheet().film_m));
        CHECK(same(one.sheet().front_kg_m2, two.sheet().front_kg_m2));
        for (std::size_t k = 0; k < one.sheet().pigments.size(); ++k) {
            CHECK(same(one.sheet().pigments[k].loose, two.sheet().pigments[k].loose));
            CHECK(same(one.sheet().pigments[k].afloat_upper, two.sheet().pigments[k].afloat_upper));
        }
    }
}

TEST_CASE("the ledger of water and pigment closes at every recorded moment", "[law][rehearsal]") {
    const auto run = scene::played(two_washes(0), 1e-3);
    REQUIRE(run.record().dried);
    REQUIRE(run.record().ledger.size() > 60);
    for (const auto& line : run.record().ledger) {
        CHECK(line.water_closure < 1e-6);
        CHECK(line.pigment_closure < 1e-6);
    }
    const auto& last = run.record().ledger.back();
    CHECK(last.flows.evaporated_kg > 0.5 * last.flows.laid_kg); // it has dried, into the air
    CHECK(last.film_kg < 1e-9);
}

TEST_CASE("a copy of a rehearsal goes on by itself and gives the same bytes", "[law][rehearsal]") {
    rehearsal::Rehearsal run(two_washes(0), {.cell_m = 1e-3, .until_s = 300});
    while (run.time_s() < 100) run.step();
    rehearsal::Rehearsal fork = run;
    while (run.step()) {}
    while (fork.step()) {}
    CHECK(same(run.sheet().film_m, fork.sheet().film_m));
    CHECK(same(run.sheet().pigments[0].loose, fork.sheet().pigments[0].loose));
}

TEST_CASE("an act that covers no cell of this size says so", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PY42", 0.5}});
    const int speck = scene::add_band(p, "speck", 0.0200, 0.0203);
    scene::add_step(p, "dot", 0, plan::Wash{.area = speck, .mix = 1});
    const auto run = scene::played(p, 4e-3, 5);
    REQUIRE(run.record().warnings.size() == 1);
    CHECK(run.record().warnings[0].find("step \"dot\" did nothing: at cells of 4 mm") == 0);
}

// Loops pass by the tiles that a pigment is said not to be in: what floated there would never move or be bound.
TEST_CASE("outside its tiles nothing of a pigment is afloat or loose, at any step", "[law][rehearsal]") {
    plan::Plan p = two_washes(0.14);
    const int right = scene::add_band(p, "right", 0.070, 0.110);
    scene::add_step(p, "third", 150, plan::Wash{.area = right, .mix = 1, .film_m = 150e-6, .pace_m2_s = 20e-4});
    scene::add_step(p, "lift", 170, plan::Lift{.area = right, .tool = plan::LiftTool::sponge, .pace_m2_s = 20e-4});
    rehearsal::Rehearsal run(p, {.cell_m = 1e-3, .until_s = 260});
    long passed_by = 0, in_use = 0;
    while (run.step()) {
        const sheet::SheetState& s = run.sheet();
        for (const auto& pigment : s.pigments)
            for (int j = 0; j < s.geometry.ny; ++j)
                for (int i = 0; i < s.geometry.nx; i += grid::TileSet::size) {
                    const int end = std::min(i + grid::TileSet::size, s.geometry.nx);
                    if (pigment.may_be_in(j, i, end)) {
                        ++in_use;
                        continue;
                    }
                    ++passed_by;
                    for (int k = i; k < end; ++k)
                        if (pigment.afloat_lower(k, j) + pigment.afloat_upper(k, j) + pigment.loose(k, j) != 0)
                            FAIL_CHECK("pigment at " << k << ", " << j << " at " << run.time_s() << " s");
                }
    }
    CHECK(in_use > 0);
    CHECK(passed_by > in_use / 4);
}
