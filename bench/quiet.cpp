// What a simulated minute of a sheet costs while it is wet all over, and while it is quiet: only damp, nothing flows. A
// quarter sheet at 0.5 mm, level, with one large wash.
//
//   quiet [threads, all]
#include <omp.h>

#include <cstdio>
#include <string>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "quarter_sheet.h"
#include "rehearsal/rehearsal.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

namespace {

/// Seconds (timing.h: busy_s) a minute of the sheet, over the next `minutes` at least.
double seconds_a_minute(rehearsal::Rehearsal& run, double minutes) {
    const double from_s = run.time_s(), start_s = bench::busy_s();
    grid::GiveWay way;
    while (run.time_s() < from_s + 60 * minutes && way.during([&] { return run.step(); })) {}
    return (bench::busy_s() - start_s) / ((run.time_s() - from_s) / 60);
}

} // namespace

int main(int argc, char** argv) {
    omp_set_num_threads(argc > 1 ? std::stoi(argv[1]) : omp_get_num_procs());
    const auto presets = materials::Presets::read(grid::presets_folder());
    plan::Plan plan = bench::sheet_to_paint(presets, bench::quarter_width_m);
    plan.steps.push_back({.name = "wash", .line = 1, .start = plan::AtTime{0},
                          .act = plan::Wash{.mix = bench::sky, .film_m = 180e-6, .pace_m2_s = 40e-4}});
    rehearsal::Rehearsal run(plan, {.cell_m = 0.5e-3});
    while (run.time_s() < 60 || run.acting()) run.step();
    const double wet_s = seconds_a_minute(run, 2);
    const double wet_at_s = run.time_s();
    while (run.sheet().film_tiles.any() && run.step()) {}
    const double quiet_at_s = run.time_s();
    const double quiet_s = seconds_a_minute(run, 10);
    bench::print_load();
    std::printf("# wet until %.1f min, measured there; no film from %.1f min, the ten minutes after that measured\n", wet_at_s / 60,
                quiet_at_s / 60);
    std::printf("threads,wet_s_a_minute,quiet_s_a_minute,times_cheaper\n%d,%.4f,%.5f,%.1f\n", omp_get_max_threads(), wet_s, quiet_s,
                wet_s / quiet_s);
}
