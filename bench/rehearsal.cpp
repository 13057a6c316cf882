// Wall time and peak memory of whole rehearsals: the first plan; 30 minutes of one large wash on a quarter sheet; an
// hour of one on 190 × 140 mm, on paper wetted on both faces, on the front, and on dry paper, cold- and hot-pressed: level
// and on a board at 8°. Where the time goes is printed beside it.
//
//   rehearsal [threads, all] [slopes: the hours alone | sizes: one wash at 1, 0.5 and 0.25 mm | full [minutes, 60]: a full
//             sheet at 0.25 mm, one large wash | PLAN [cell in mm, 0.5] [minutes, to its end]: that plan alone]
//
// The last three columns: cells awake, summed over film steps; wall time a cell and step, the hand apart; time of the
// processor, which other programs disturb least.
#include <omp.h>
#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>
#include <utility>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "plan/read_plan.h"
#include "quarter_sheet.h"
#include "rehearsal/rehearsal.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

namespace {

enum class Wetted { both, front, dry };

/// A sheet, wetted, then one wash over all of it, downhill.
plan::Plan large_wash(const materials::Presets& presets, const char* paper, Wetted wetted, double width_m, double tilt_rad) {
    plan::Plan p = bench::sheet_to_paint(presets, width_m, paper);
    p.tilt_rad = tilt_rad;
    plan::Start start = plan::AtTime{0};
    if (wetted != Wetted::dry) {
        const bool both = wetted == Wetted::both;
        p.steps.push_back({.name = "wet", .line = 1, .start = start,
                           .act = plan::Wet{.side = both ? plan::Side::both : plan::Side::front,
                                            .water_kg_m2 = both ? 0.22 : 0.12}});
        start = plan::AfterStep{0, 60};
    }
    p.steps.push_back({.name = "wash", .line = 2, .start = start,
                       .act = plan::Wash{.mix = bench::sky, .film_m = 110e-6, .pace_m2_s = 10e-4, .travel = plan::Travel::downhill}});
    return p;
}

void run(const char* name, const plan::Plan& plan, double until_s, double cell_m = 0.5e-3) {
    const auto start = std::chrono::steady_clock::now();
    const std::clock_t cpu = std::clock();
    rehearsal::Rehearsal r(plan, {.cell_m = cell_m, .until_s = until_s});
    grid::GiveWay way;
    while (way.during([&] { return r.step(); })) {}
    const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto& c = r.cost();
    const double all_s = c.seconds[1] + c.seconds[2] + c.seconds[3] + c.seconds[4] + c.seconds[5];
    std::printf("%s,%.2f,%.0f,%ld,%ld,%ld,%ld,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f,%.4g,%.1f,%.2f\n", name, wall_s,
                usage.ru_maxrss / 1024.0, c.film_steps, c.quiet_steps, c.cycles, c.refused,
                c.cell_steps > 0 ? c.seconds[1] * 1e9 / c.cell_steps : 0, c.seconds[0], c.seconds[1], c.seconds[2],
                c.seconds[3], c.seconds[4], c.seconds[5], c.cell_steps, c.cell_steps > 0 ? all_s * 1e9 / c.cell_steps : 0,
                static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    omp_set_num_threads(argc > 1 ? std::stoi(argv[1]) : omp_get_num_procs());
    const auto folder = grid::presets_folder();
    const auto presets = materials::Presets::read(folder);
    std::puts("run,wall_s,peak_MiB_so_far,film_steps,quiet_steps,cycles,refused,film_ns_per_cell_and_step,hand_s,film_s,"
              "pigment_s,fibre_and_air_s,wake_and_stages_s,ledger_s,cell_steps,ns_per_cell_and_step,cpu_s");
    const std::string what = argc > 2 ? argv[2] : "";
    if (what == "full") {
        run("full sheet 0.25 mm", large_wash(presets, "cold-pressed-300", Wetted::dry, 0.760, 0),
            argc > 3 ? 60 * std::stod(argv[3]) : 3600, 0.25e-3);
        return 0;
    }
    if (what == "sizes") { // before any of it is dry: the same water at every size
        const plan::Plan wash = large_wash(presets, "cold-pressed-300", Wetted::both, 0.190, 0);
        for (const auto& [name, cell_m] : {std::pair{"1 mm", 1e-3}, {"0.5 mm", 0.5e-3}, {"0.25 mm", 0.25e-3}}) run(name, wash, 900, cell_m);
        return 0;
    }
    if (argc > 2 && what != "slopes") {
        run(argv[2], plan::read_plan(argv[2], presets), argc > 4 ? 60 * std::stod(argv[4]) : 0,
            argc > 3 ? 1e-3 * std::stod(argv[3]) : 0.5e-3);
        return 0;
    }
    constexpr double tilt_rad = 8 * M_PI / 180;
    if (argc <= 2) {
        run("two-pears", plan::read_plan(folder / "plans/two-pears/plan.toml", presets), 0);
        for (double tilt : {0.0, tilt_rad})
            run(tilt > 0 ? "quarter sheet 8 deg 30 min" : "quarter sheet level 30 min",
                large_wash(presets, "cold-pressed-300", Wetted::both, bench::quarter_width_m, tilt), 1800);
    }
    for (const char* paper : {"cold-pressed-300", "hot-pressed-300"})
        for (const auto& [wetted, word] : {std::pair{Wetted::both, "both faces"}, {Wetted::front, "front"}, {Wetted::dry, "dry"}})
            for (double tilt : {0.0, tilt_rad})
                run((std::string(paper) + " " + word + (tilt > 0 ? " 8 deg" : " level") + " 60 min").c_str(),
                    large_wash(presets, paper, wetted, 0.190, tilt), 3600);
}
