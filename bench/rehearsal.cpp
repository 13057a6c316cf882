// Wall time and peak memory of whole rehearsals: the first plan, and 30 minutes of one large wash on a quarter sheet,
// level and on a board at 8°. Where the time goes is printed beside it.
#include <omp.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <string>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "plan/read_plan.h"
#include "rehearsal/rehearsal.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

namespace {

/// A quarter sheet, 380 × 280 mm, wetted on both faces, then one wash over all of it.
plan::Plan large_wash(const materials::Presets& presets, double tilt_rad) {
    plan::Plan p;
    p.width_m = 0.380, p.height_m = 0.280, p.tilt_rad = tilt_rad, p.seed = 7;
    p.paper = *presets.paper("cold-pressed-300");
    p.room = *presets.room("temperate-studio");
    p.pigments = {*presets.pigment("PB29"), *presets.pigment("PBr7-burnt-sienna")};
    p.mixes = {{.name = "water", .pigments = {}},
               {.name = "sky", .pigments = {{0, 0.010}, {1, 0.005}}, .gum_mass_fraction = 0.009}};
    p.steps.push_back({.name = "wet", .line = 1, .start = plan::AtTime{0},
                       .act = plan::Wet{.side = plan::Side::both, .water_kg_m2 = 0.22}});
    p.steps.push_back({.name = "wash", .line = 2, .start = plan::AfterStep{0, 60},
                       .act = plan::Wash{.mix = 1, .film_m = 110e-6, .pace_m2_s = 10e-4, .travel = plan::Travel::downhill}});
    return p;
}

void run(const char* name, const plan::Plan& plan, double until_s) {
    const auto start = std::chrono::steady_clock::now();
    rehearsal::Rehearsal r(plan, {.cell_m = 0.5e-3, .until_s = until_s});
    grid::GiveWay way;
    while (way.during([&] { return r.step(); })) {}
    const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto& c = r.cost();
    std::printf("%s,%.1f,%.0f,%ld,%ld,%ld,%ld,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f\n", name, wall_s,
                usage.ru_maxrss / 1024.0, c.film_steps, c.quiet_steps, c.cycles, c.refused,
                c.cell_steps > 0 ? c.seconds[1] * 1e9 / c.cell_steps : 0, c.seconds[0], c.seconds[1], c.seconds[2],
                c.seconds[3], c.seconds[4], c.seconds[5]);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    omp_set_num_threads(argc > 1 ? std::stoi(argv[1]) : omp_get_num_procs());
    const auto folder = grid::presets_folder();
    const auto presets = materials::Presets::read(folder);
    std::puts("run,wall_s,peak_MiB_so_far,film_steps,quiet_steps,cycles,refused,film_ns_per_cell_and_step,hand_s,film_s,"
              "pigment_s,fibre_and_air_s,wake_and_stages_s,ledger_s");
    run("two-pears", plan::read_plan(folder / "plans/two-pears/plan.toml", presets), 0);
    run("quarter sheet level 30 min", large_wash(presets, 0), 1800);
    run("quarter sheet 8 deg 30 min", large_wash(presets, 0.13962634), 1800);
}
