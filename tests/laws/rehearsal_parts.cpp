// Rehearsals whose brisk tiles step finely, beside the same with the whole sheet in fine steps.
#include <catch2/catch.hpp>
#include <omp.h>

#include "grid/rows.h"
#include "support/rehearsal_scene.h"

using namespace tidemark;

namespace {

/// A wetted sheet on a steep board, and a wash that comes down it.
plan::Plan on_a_slope() {
    plan::Plan p = scene::small_sheet({{"PB29", 4.0}, {"PR101", 4.0}});
    p.width_m = 0.120, p.height_m = 0.160;
    p.tilt_rad = 8 * M_PI / 180;
    scene::add_step(p, "wet", 0, plan::Wet{.water_kg_m2 = 0.07});
    const int left = scene::add_band(p, "left", 0.010, 0.060, 0.012), right = scene::add_band(p, "right", 0.070, 0.115, 0.040);
    scene::add_step(p, "wash", 15, plan::Wash{.area = left, .mix = 1, .film_m = 45e-6, .pace_m2_s = 12e-4, .travel = plan::Travel::downhill});
    scene::add_step(p, "second", 40, plan::Wash{.area = right, .mix = 2, .film_m = 40e-6, .pace_m2_s = 12e-4, .travel = plan::Travel::rows});
    return p;
}

rehearsal::Rehearsal run(const plan::Plan& p, bool in_parts, double until_s = 0) {
    rehearsal::Rehearsal r(p, {.cell_m = 0.5e-3, .until_s = until_s, .in_parts = in_parts});
    while (r.step()) {}
    return r;
}

} // namespace

TEST_CASE("in parts a wash on a slope comes to look as it does in fine steps of the whole sheet", "[law][rehearsal]") {
    const plan::Plan p = on_a_slope();
    const rehearsal::Rehearsal parts = run(p, true, 60), whole = run(p, false, 60);
    REQUIRE(parts.cost().brisk_steps > 50);
    CHECK(whole.cost().brisk_steps == 0);
    CHECK(parts.cost().film_steps < whole.cost().film_steps); // of the whole sheet
    const auto &a = parts.sheet(), &b = whole.sheet();
    const sheet::Look one = sheet::look(a, sheet::LookAs::dried), other = sheet::look(b, sheet::LookAs::dried);
    double sum = 0;
    std::vector<float> off;
    for (int j = 0; j < a.geometry.ny; ++j)
        for (int i = 0; i < a.geometry.nx; ++i) {
            off.push_back(std::abs(one.lstar(i, j) - other.lstar(i, j)));
            sum += off.back();
        }
    std::sort(off.begin(), off.end());
    // Nobody sees a difference below 1 L*.
    CHECK(sum / static_cast<double>(off.size()) < 0.15);
    CHECK(off[off.size() * 99 / 100] < 1.0);
}

// A front waits at each cell until the way into it is asked for again, so in parts that must be done for each sub-step.
TEST_CASE("in parts water runs as far over dry paper as in fine steps of the whole sheet", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 4.0}});
    p.width_m = 0.240, p.height_m = 0.320;
    p.tilt_rad = 20 * M_PI / 180;
    const int wet = scene::add_band(p, "wet", 0.090, 0.235, 0.004), patch = scene::add_band(p, "patch", 0.020, 0.032, 0.145);
    scene::add_step(p, "wash", 0, plan::Wash{.area = wet, .mix = 1, .film_m = 50e-6, .pace_m2_s = 40e-4, .travel = plan::Travel::downhill});
    scene::add_step(p, "bead", 15, plan::Wash{.area = patch, .mix = 0, .film_m = 400e-6, .pace_m2_s = 12e-4});
    struct Run { int lowest = 0; long cells = 0, brisk = 0; };
    const auto ran = [&](bool in_parts, double until_s) {
        rehearsal::Rehearsal r(p, {.cell_m = 1e-3, .until_s = until_s, .in_parts = in_parts});
        while (r.step()) {}
        Run run{.brisk = r.cost().brisk_steps};
        for (int j = 0; j < r.sheet().geometry.ny; ++j)
            for (int i = 0; i < 60; ++i)
                if (r.sheet().film_m(i, j) > 0) run.lowest = std::max(run.lowest, j), ++run.cells;
        return run;
    };
    const Run parts = ran(true, 17), whole = ran(false, 17);
    INFO("lowest wet row " << parts.lowest << " and " << whole.lowest << ", wet cells " << parts.cells << " and " << whole.cells);
    REQUIRE(parts.brisk > 10);
    CHECK(parts.lowest >= whole.lowest - 45); // it runs some eighty cells a second: half a second late at most
    CHECK(parts.cells == Approx(whole.cells).epsilon(0.15));
}

TEST_CASE("in parts the same plan gives the same bytes for any number of threads", "[law][rehearsal]") {
    const plan::Plan p = on_a_slope();
    grid::parallel_from_cells = 0; // share out the smallest part
    omp_set_num_threads(1);
    const rehearsal::Rehearsal one = run(p, true, 30);
    omp_set_num_threads(3);
    const rehearsal::Rehearsal three = run(p, true, 30);
    omp_set_num_threads(omp_get_num_procs());
    grid::parallel_from_cells = 8192;
    REQUIRE(one.cost().brisk_steps > 5);
    const auto &a = one.sheet(), &b = three.sheet();
    for (int j = 0; j < a.geometry.ny; ++j) {
        CHECK(std::equal(a.film_m.row(j), a.film_m.row(j) + a.geometry.nx, b.film_m.row(j)));
        for (std::size_t k = 0; k < 2; ++k)
            CHECK(std::equal(a.pigments[k].afloat_upper.row(j), a.pigments[k].afloat_upper.row(j) + a.geometry.nx,
                             b.pigments[k].afloat_upper.row(j)));
    }
}

TEST_CASE("in parts a copy goes on by itself and gives the same bytes", "[law][rehearsal]") {
    const plan::Plan p = on_a_slope();
    rehearsal::Rehearsal run(p, {.cell_m = 1e-3, .until_s = 80});
    while (run.time_s() < 30) run.step();
    REQUIRE(run.cost().brisk_steps > 0);
    rehearsal::Rehearsal copy = run;
    while (run.step()) {}
    while (copy.step()) {}
    const auto &a = run.sheet(), &b = copy.sheet();
    for (int j = 0; j < a.geometry.ny; ++j) {
        CHECK(std::equal(a.film_m.row(j), a.film_m.row(j) + a.geometry.nx, b.film_m.row(j)));
        CHECK(std::equal(a.front_kg_m2.row(j), a.front_kg_m2.row(j) + a.geometry.nx, b.front_kg_m2.row(j)));
    }
}
