#include <fmt/format.h>
#include <omp.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <set>

#include "advice/advise.h"
#include "cli/commands.h"
#include "cli/progress.h"
#include "cli/wet_moment.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "grid/problem.h"
#include "materials/cautions.h"
#include "plan/variants.h"
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

void check_advise(const RehearseOptions& o, const plan::Plan& plan) {
    if (o.advise && plan.wants.empty())
        throw grid::BadInput("--advise", "the plan wants no edges", "a plan with at least one [[want]]");
    if (o.advise && !o.until.empty())
        throw grid::BadInput("--advise", "together with --until", "a rehearsal to its end");
}

/// False when the painter stopped it.
bool try_changes(const RehearseOptions& o, const plan::Variants& plans, const rehearsal::Rehearsal& run, int threads, judge::Verdicts& verdicts) {
    StatusLine line(!o.quiet && isatty(fileno(stderr)) != 0);
    const auto tell = [&](const std::string& what, const rehearsal::BranchProgress& p) {
        const std::string left = p.left_s > 0 ? fmt::format("  about {:.0f} s left of these", p.left_s) : "";
        line.show(fmt::format("advice: {}: {} of {} sheets{}", what, p.finished, p.of, left));
        return !stopped_by_painter();
    };
    const auto found = advice::advise({plans, run.record(), verdicts, run.options().cell_m, threads}, tell);
    line.clear();
    if (!found) return false;
    verdicts.advice = found->advice;
    verdicts.moments = found->moments;
    return true;
}

} // namespace

bool rehearse_plan(const RehearseOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    const plan::Variants plans(o.plan, presets, files_from(o.outside));
    const plan::Plan& plan = plans.base();
    check_advise(o, plan);
    const rehearsal::Options options = options_from(o, plan);
    begin_run(o.threads);
    const int threads = omp_get_max_threads();
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
    judge::Verdicts verdicts = report::write_outputs(inputs, dried, out);
    if (o.advise && !try_changes(o, plans, run, threads, verdicts)) {
        std::fputs("stopped while changes were tried; nothing was written\n", stderr);
        return false;
    }
    if (verdicts.advice) report::write_advice(plan, verdicts, out);
    report::write_page(inputs, verdicts, dried, wet.shown(run), cautions, out);
    if (stopped_by_painter()) return false;
    out.commit();
    keeper.remove_older();
    if (!o.quiet)
        fmt::print("{}Look at {}\n", report::summary(inputs, verdicts, cautions), (out.folder() / "sheet.png").string());
    return true;
}

} // namespace tidemark::cli
