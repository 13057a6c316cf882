#include "reference/draft.h"

#include <fmt/format.h>
#include <stdlib.h> // mkdtemp
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <limits>
#include <map>

#include "cli/commands.h"
#include "cli/masses_options.h"
#include "cli/open_patch.h"
#include "cli/progress.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "judge/windows.h"
#include "materials/presets.h"
#include "plan/read_plan.h"
#include "rehearsal/rehearsal.h"

namespace tidemark::cli {
namespace {

constexpr double coarse_cell_m = 2e-3, coarsest_cell_m = 4e-3, coarse_cells = 13000;

/// A folder of its own that goes when it is no longer needed.
class Aside {
  public:
    Aside() {
        std::error_code none;
        std::string name = (std::filesystem::temp_directory_path(none) / "tidemark-XXXXXX").string();
        if (none) throw grid::IoError("there is no folder for temporary files (TMPDIR): " + none.message());
        if (!mkdtemp(name.data())) throw grid::IoError(fmt::format("{}: no folder can be made here", name));
        path_ = name;
    }
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;
    ~Aside() {
        std::error_code left; // nothing hangs on it
        std::filesystem::remove_all(path_, left);
    }
    const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// How long an edge joins on the draft's paper and in its room, each film played once.
reference::OpenFor open_for(const materials::Presets& presets) {
    return [patch = open_patch(presets, "cold-pressed-300", "temperate-studio", "PB29"), played = std::map<double, double>()](double film_um) mutable {
        if (const auto before = played.find(film_um); before != played.end()) return before->second;
        patch.film_m = film_um * 1e-6;
        return played[film_um] = rehearsal::open_time(patch).joins_s;
    };
}

/// A stage reached after the next act came to the place is that act's.
double before_next(const judge::Window& w, double minute) {
    return minute <= w.until_min ? minute : std::numeric_limits<double>::quiet_NaN();
}

/// Plays the draft on coarse cells and notes when each wash lost its sheen, its film, its damp.
bool rehearse_once(reference::Draft& draft, const materials::Presets& presets) {
    const Aside aside;
    grid::OutputFolder folder(aside.path() / "draft");
    reference::write_draft(draft, folder);
    folder.commit();
    const plan::Plan plan = [&] {
        try {
            return plan::read_plan(aside.path() / "draft" / "plan.toml", presets);
        } catch (const grid::BadInput& e) { // nothing that the painter wrote
            throw grid::InternalError("the draft can't be read again: " + e.problems().front().line());
        }
    }();
    begin_run(0);
    const double cell_m = std::clamp(std::sqrt(plan.width_m * plan.height_m / coarse_cells), coarse_cell_m, coarsest_cell_m);
    rehearsal::Rehearsal run(plan, {.cell_m = cell_m});
    Progress progress(plan, isatty(fileno(stderr)) != 0);
    while (run.step()) {
        progress.show(run);
        if (stopped_by_painter()) return false;
    }
    progress.clear();
    std::vector<reference::PassTimes> times;
    const auto windows = judge::judge_windows(plan, run.record());
    for (const reference::DraftPass& pass : draft.passes) {
        constexpr double not_reached = std::numeric_limits<double>::quiet_NaN();
        reference::PassTimes t{not_reached, not_reached, not_reached, not_reached};
        for (const judge::Window& w : windows)
            if (w.step >= 0 && plan.steps[static_cast<std::size_t>(w.step)].name == pass.name)
                t = {w.wet_from_min, before_next(w, w.moist_min), before_next(w, w.damp_min), before_next(w, w.dry_min)};
        times.push_back(t);
    }
    tell_times(draft, times);
    return true;
}

void refuse_folder(const DraftOptions& o) {
    keep_picture(o.picture, o.out, {"reference.png"});
    const std::filesystem::path folder = o.out, older = folder / "plan.toml";
    if (!o.masses.masks.empty() && same_file(reference::masks_folder(o.masses.masks), folder / "masks"))
        throw grid::BadInput("--out", "\"" + o.out + "\" is where the masks lie: some would be written over", "another folder");
    std::error_code unreadable; // then the folder can't be written either, and says so itself
    if (std::filesystem::exists(folder / "masses.csv", unreadable))
        throw grid::BadInput("--out", "\"" + o.out + "\" holds what squint found: its masks would be written over", "another folder");
    if (!o.replace && std::filesystem::exists(std::filesystem::symlink_status(older, unreadable)))
        throw grid::BadInput(older.string(), "a plan is here already", "another folder, or --replace to write over it");
}

} // namespace

bool draft_picture(const DraftOptions& o) {
    refuse_folder(o);
    looking(o.masses); // what is wrong with options is said before the picture is read
    const auto presets = materials::Presets::read(grid::presets_folder());
    const Found found = found_in(o.picture, o.masses);
    reference::Draft draft = draft_plan(found.picture, found.seen, found.how, std::filesystem::path(o.picture).filename().string(), open_for(presets));
    if (!rehearse_once(draft, presets)) {
        std::fputs("stopped; nothing was written\n", stderr);
        return false;
    }
    grid::OutputFolder out(o.out);
    reference::write_draft(draft, out);
    out.commit();
    say_found(o.picture, found);
    const std::string plan = (out.folder() / "plan.toml").string();
    fmt::print("A first plan is in {0}. Read it, change it, then:\n  tidemark rehearse {0} --out FOLDER\n", plan);
    return true;
}

} // namespace tidemark::cli
