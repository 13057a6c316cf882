#include <fmt/format.h>
#include <omp.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdio>

#include "cli/commands.h"
#include "cli/progress.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "grid/problem.h"
#include "materials/cautions.h"
#include "plan/read_plan.h"
#include "rehearsal/rehearsal.h"
#include "report/write_outputs.h"

namespace tidemark::cli {
namespace {

std::sig_atomic_t volatile interrupted = 0;
void on_interrupt(int) { interrupted = 1; }

rehearsal::Options options_from(const RehearseOptions& o, const plan::Plan& plan) {
    if (!(o.cell_mm >= 0.1 && o.cell_mm <= 4))
        throw grid::BadInput("--cell", fmt::format("{} mm", o.cell_mm), "0.1 to 4");
    if (o.threads < 0 || o.threads > 256) throw grid::BadInput("--threads", fmt::format("{}", o.threads), "1 to 256, or 0: one a core");
    rehearsal::Options options;
    options.cell_m = o.cell_mm * 1e-3;
    if (!o.until.empty()) options.until_s = seconds_from_clock(o.until, "--until");
    if (!o.frames.empty()) options.frame_every_s = seconds_from_clock(o.frames, "--frames");
    if (!o.frames.empty() && options.frame_every_s < 5) throw grid::BadInput("--frames", o.frames, "0:05 and more");
    const double cells = plan.width_m * plan.height_m / (options.cell_m * options.cell_m);
    if (cells > 60e6) throw grid::BadInput("--cell", fmt::format("{} mm makes {:.0f} million cells", o.cell_mm, cells / 1e6), "at most 60 million");
    return options;
}

} // namespace

bool rehearse_plan(const RehearseOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Plan plan = plan::read_plan(o.plan, presets);
    const rehearsal::Options options = options_from(o, plan);
    grid::OutputFolder out(o.out);
    omp_set_num_threads(o.threads > 0 ? o.threads : omp_get_num_procs());
    interrupted = 0;
    std::signal(SIGINT, on_interrupt);
    std::signal(SIGTERM, on_interrupt);

    rehearsal::Rehearsal run(plan, options);
    Progress progress(plan, !o.quiet && isatty(fileno(stderr)) != 0);
    grid::GiveWay way;
    while (way.during([&] { return run.step(); })) {
        progress.show(run);
        if (run.frame_due()) report::write_frame(run.sheet(), out);
        if (interrupted) {
            progress.clear();
            std::fprintf(stderr, "stopped at %s; nothing was written\n", grid::clock_text(run.time_s()).c_str());
            return false;
        }
    }
    progress.clear();
    const report::Inputs inputs{plan, run.sheet(), run.record(), run.record().dried};
    const judge::Verdicts verdicts = report::write_outputs(inputs, out);
    if (interrupted) return false;
    out.commit();
    if (!o.quiet)
        fmt::print("{}Look at {}\n", report::summary(inputs, verdicts, materials::read_cautions(grid::presets_folder())),
                   (out.folder() / "sheet.png").string());
    return true;
}

} // namespace tidemark::cli
