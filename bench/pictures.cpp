// What share of a whole run its pictures, tables and report take: everything that is written once the sheet is dry, with
// judging, and the looks on the way. As `tidemark rehearse` does it, in this order.
//
//   pictures PLAN [cell in mm, 0.5] [threads, all]
//
// Reading the plan and its pictures counts too: all_s is what the painter waits for.
#include <omp.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <string>

#include "cli/wet_moment.h"
#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "materials/cautions.h"
#include "plan/read_plan.h"
#include "report/write_outputs.h"
#include "timing.h"

TIDEMARK_BRISK_THREADS

using namespace tidemark;

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "%s: which plan? %s PLAN [cell in mm] [threads]\n", argv[0], argv[0]);
        return 1;
    }
    const double start_s = bench::now_s();
    omp_set_num_threads(argc > 3 ? std::stoi(argv[3]) : omp_get_num_procs());
    const auto presets = materials::Presets::read(grid::presets_folder());
    const auto cautions = materials::read_cautions(grid::presets_folder());
    const plan::Plan plan = plan::read_plan(argv[1], presets);
    const auto folder = std::filesystem::temp_directory_path() / ("tidemark-bench-pictures-" + std::to_string(getpid()));
    double looks_s = 0;
    rehearsal::Rehearsal run(plan, {.cell_m = argc > 2 ? 1e-3 * std::stod(argv[2]) : 0.5e-3});
    cli::WetMoment wet;
    grid::GiveWay way;
    while (way.during([&] { return run.step(); })) {
        const double then_s = bench::now_s();
        wet.look(run);
        looks_s += bench::now_s() - then_s;
    }
    const double played_s = bench::now_s();
    {
        grid::OutputFolder out(folder);
        const report::Inputs inputs{plan, run.sheet(), run.record(), run.record().dried, presets.brushes};
        const sheet::Look dried = sheet::look(run.sheet(), sheet::LookAs::dried);
        const judge::Verdicts verdicts = report::write_outputs(inputs, dried, out);
        report::write_page(inputs, verdicts, dried, wet.shown(run), cautions, out);
        out.commit();
    }
    const double end_s = bench::now_s();
    std::filesystem::remove_all(folder);
    const double pictures_s = looks_s + end_s - played_s;
    std::printf("threads,all_s,pictures_s,share_percent\n%d,%.3f,%.3f,%.2f\n", omp_get_max_threads(), end_s - start_s, pictures_s,
                100 * pictures_s / (end_s - start_s));
}
