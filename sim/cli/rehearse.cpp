#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <set>

#include "cli/commands.h"
#include "cli/progress.h"
#include "cli/wet_moment.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "grid/problem.h"
#include "materials/cautions.h"
#include "plan/read_plan.h"
#include "rehearsal/kept.h"
#include "report/write_outputs.h"

namespace tidemark::cli {
namespace {

rehearsal::Options options_from(const RehearseOptions& o, const plan::Plan& plan) {
    rehearsal::Options options;
    options.cell_m = cell_m_from(o.cell_mm, plan);
    if (!o.until.empty()) options.until_s = seconds_from_clock(o.until, "--until");
    if (!o.frames.empty()) options.frame_every_s = seconds_from_clock(o.frames, "--frames");
    if (!o.keep.empty() && seconds_from_clock(o.keep, "--keep") < 5) throw grid::BadInput("--keep", o.keep, "0:05 and more");
    if (!o.frames.empty() && options.frame_every_s < 5) throw grid::BadInput("--frames", o.frames, "0:05 and more");
    return options;
}

/// Writes the moments of --keep as they come, the start first, and takes away those of an older run at the end.
class Keeper {
  public:
    Keeper(double every_s, const std::string& plan, grid::OutputFolder& out)
        : every_s_(every_s), plan_(std::filesystem::absolute(plan).lexically_normal()), out_(out) {}
    /// After a step. What until_s has cut short is no moment of a longer run.
    void keep_if_due(const rehearsal::Rehearsal& run) {
        if (every_s_ <= 0 || run.time_s() < next_s_ - 1e-9) return;
        if (run.options().until_s > 0 && run.time_s() >= run.options().until_s - 1e-9) return;
        next_s_ = (std::floor(run.time_s() / every_s_ + 1e-9) + 1) * every_s_;
        out_.write(rehearsal::kept_name(run.time_s()), rehearsal::kept_bytes(run, plan_));
        kept_.insert(rehearsal::kept_name(run.time_s()));
    }
    void remove_older() const { // once the new ones are in place
        if (every_s_ > 0) rehearsal::remove_kept_but(out_.folder(), kept_);
    }

  private:
    double every_s_, next_s_ = 0;
    std::filesystem::path plan_;
    grid::OutputFolder& out_;
    std::set<std::string> kept_;
};

} // namespace

bool rehearse_plan(const RehearseOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Plan plan = plan::read_plan(o.plan, presets);
    const rehearsal::Options options = options_from(o, plan);
    begin_run(o.threads);
    grid::OutputFolder out(o.out);

    rehearsal::Rehearsal run(plan, options);
    Keeper keeper(o.keep.empty() ? 0 : seconds_from_clock(o.keep, "--keep"), o.plan, out);
    keeper.keep_if_due(run);
    WetMoment wet;
    Progress progress(plan, !o.quiet && isatty(fileno(stderr)) != 0);
    grid::GiveWay way;
    while (way.during([&] { return run.step(); })) {
        progress.show(run);
        wet.look(run);
        if (run.frame_due()) report::write_frame(run.sheet(), out);
        keeper.keep_if_due(run);
        if (stopped_by_painter()) {
            progress.clear();
            std::fprintf(stderr, "stopped at %s; nothing was written\n", grid::clock_text(run.time_s()).c_str());
            return false;
        }
    }
    progress.clear();
    const report::Inputs inputs{plan, run.sheet(), run.record(), run.record().dried, presets.brushes};
    const auto cautions = materials::read_cautions(grid::presets_folder());
    const sheet::Look dried = sheet::look(run.sheet(), sheet::LookAs::dried);
    const judge::Verdicts verdicts = report::write_outputs(inputs, dried, out);
    report::write_page(inputs, verdicts, dried, wet.shown(run), cautions, out);
    if (stopped_by_painter()) return false;
    out.commit();
    keeper.remove_older();
    if (!o.quiet)
        fmt::print("{}Look at {}\n", report::summary(inputs, verdicts, cautions), (out.folder() / "sheet.png").string());
    return true;
}

} // namespace tidemark::cli
