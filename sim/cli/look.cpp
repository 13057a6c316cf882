#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "cli/commands.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "plan/read_plan.h"
#include "rehearsal/kept.h"
#include "report/write_outputs.h"

namespace tidemark::cli {

bool look_at_moment(const LookOptions& o) {
    const double at_s = seconds_from_clock(o.at, "--at");
    begin_run(o.threads);
    const std::filesystem::path kept = rehearsal::last_kept(o.folder, at_s), picture = output_file(o.out, "--out");
    rehearsal::KeptMoment moment(kept);
    const auto presets = materials::Presets::read(grid::presets_folder());
    rehearsal::Rehearsal run = moment.go_on(
        plan::read_plan(o.plan.empty() ? moment.plan_file() : std::filesystem::path(o.plan), presets, files_from(o.outside)), at_s);
    grid::GiveWay way;
    while (way.during([&] { return run.step(); }))
        if (stopped_by_painter()) {
            std::fputs("stopped; nothing was written\n", stderr);
            return false;
        }
    grid::OutputFolder out(picture.parent_path());
    out.write(picture.filename().string(),
              report::sheet_picture(run.sheet(), o.dried ? sheet::LookAs::dried : sheet::LookAs::as_now));
    out.commit();
    if (run.record().dried)
        fmt::print("The sheet is dry since {}. ", grid::clock_text(run.time_s()));
    fmt::print("Look at {}\n", o.out);
    return true;
}

} // namespace tidemark::cli
