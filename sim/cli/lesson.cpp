#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <numeric>
#include <optional>

#include "cli/commands.h"
#include "cli/progress.h"
#include "grid/animation.h"
#include "grid/files.h"
#include "grid/give_way.h"
#include "grid/problem.h"
#include "plan/coverage.h"
#include "plan/lesson.h"
#include "plan/read_plan.h"
#include "rehearsal/count_stages.h"
#include "report/lesson_pictures.h"
#include "report/write_outputs.h"
#include "sheet/look.h"

namespace tidemark::cli {
namespace {

// The animation: some pictures on the way to each moment, which then stands to be read.
constexpr int pictures_to_a_moment = 8;
constexpr double passing_s = 0.12, standing_s = 1.4, last_s = 4;

std::string names_of(const std::vector<plan::Lesson>& lessons) {
    std::vector<std::string> names;
    for (const plan::Lesson& lesson : lessons) names.push_back(lesson.name());
    return fmt::format("{}", fmt::join(names, ", "));
}

const plan::Lesson& lesson_named(const std::string& name, const std::vector<plan::Lesson>& lessons) {
    std::vector<std::string> names;
    for (const plan::Lesson& lesson : lessons) {
        if (lesson.name() == name) return lesson;
        names.push_back(lesson.name());
    }
    if (name.empty()) throw grid::BadInput("NAME", "is missing", names_of(lessons));
    throw grid::BadInput("NAME", fmt::format("unknown lesson \"{}\"{}", name, grid::did_you_mean(name, names)), names_of(lessons));
}

/// A lesson's plans, and which area of each is watched.
struct Sheet {
    plan::Plan plan;
    int watch = plan::whole_sheet;
};

std::vector<Sheet> read_sheets(const plan::Lesson& lesson) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    std::vector<Sheet> sheets;
    for (const plan::LessonSheet& s : lesson.sheets) {
        Sheet sheet{plan::read_plan(s.plan, presets)};
        if (!s.watch.empty()) sheet.watch = sheet.plan.area_index(s.watch);
        if (!s.watch.empty() && sheet.watch < 0)
            throw grid::BadInput(s.where, fmt::format("[[sheet]]: watch \"{}\" is no area of {}", s.watch, s.plan.filename().string()));
        const plan::Plan& first = sheets.empty() ? sheet.plan : sheets.front().plan;
        if (sheet.plan.width_m != first.width_m || sheet.plan.height_m != first.height_m)
            throw grid::BadInput(s.where, "[[sheet]]: the two plans' sheets have different sizes", "one size");
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

/// When a picture is taken: on the way to each moment and at it, the bare sheet first.
std::vector<double> times_of(const plan::Lesson& lesson) {
    std::vector<double> times{0};
    for (const double moment_s : lesson.moments_s) {
        const double from_s = times.back();
        for (int k = 1; k <= pictures_to_a_moment; ++k) times.push_back(from_s + (moment_s - from_s) * k / pictures_to_a_moment);
    }
    return times;
}

/// What is watched: nothing, for the whole sheet, or one area.
using Watched = std::vector<rehearsal::AreaCells>;

Watched watched_on(const rehearsal::Rehearsal& run, int watch) {
    if (watch == plan::whole_sheet) return {};
    const sheet::Geometry& g = run.sheet().geometry;
    const auto cover = plan::coverage(run.plan(), watch, g.nx, g.ny);
    grid::Field<std::uint8_t> inside(g.nx, g.ny);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) inside(i, j) = cover(i, j) >= plan::half_covered;
    return {rehearsal::AreaCells(std::move(inside))};
}

/// As it is now: the record's samples may be a quarter of a minute old.
sheet::CellStage stage_now(const rehearsal::Rehearsal& run, const Watched& watched) {
    const rehearsal::StageCount count = rehearsal::count_stages(run.sheet(), watched).front();
    const double cells = std::max(1.0, static_cast<double>(std::accumulate(count.cells.begin(), count.cells.end(), 0L)));
    double share[4];
    for (int k = 0; k < 4; ++k) share[k] = static_cast<double>(count.cells[k]) / cells;
    return report::stage_reached(share);
}

report::LessonView view_of(const rehearsal::Rehearsal& run, const Watched& watched, bool finished) {
    return {sheet::look(run.sheet(), finished ? sheet::LookAs::dried : sheet::LookAs::as_now).picture, run.time_s(),
            stage_now(run, watched), finished};
}

/// A view at each of the times, or as soon after it as the run comes by, and one when all is dry. None when the
/// painter stopped it. The dried sheet is that of `rehearse`, for nothing is stepped otherwise.
std::optional<std::vector<report::LessonView>> views_of(rehearsal::Rehearsal& run, const Watched& watched,
                                                        const std::vector<double>& times, bool quiet) {
    std::vector<report::LessonView> views;
    Progress progress(run.plan(), !quiet && isatty(fileno(stderr)) != 0);
    grid::GiveWay way;
    do {
        while (views.size() < times.size() && run.time_s() >= times[views.size()] - 1e-9) views.push_back(view_of(run, watched, false));
        progress.show(run);
        if (stopped_by_painter()) {
            progress.clear();
            return std::nullopt;
        }
    } while (way.during([&] { return run.step(); }));
    progress.clear();
    while (views.size() <= times.size()) views.push_back(view_of(run, watched, true)); // dry before the last of them
    return views;
}

bool list(const std::vector<plan::Lesson>& lessons) {
    std::size_t widest = 0;
    for (const plan::Lesson& lesson : lessons) widest = std::max(widest, lesson.name().size());
    for (const plan::Lesson& lesson : lessons) fmt::print("{:>2}  {:{}}  {}\n", lesson.number, lesson.name(), widest, lesson.title);
    return true;
}

void write_pictures(const plan::Lesson& lesson, const std::vector<std::vector<report::LessonView>>& by_sheet, grid::OutputFolder& out) {
    std::vector<std::string> captions;
    for (const plan::LessonSheet& sheet : lesson.sheets) captions.push_back(sheet.caption);
    std::vector<std::vector<report::LessonView>> moments;
    std::vector<grid::Shown> frames;
    const std::size_t count = by_sheet.front().size();
    for (std::size_t k = 0; k < count; ++k) {
        std::vector<report::LessonView> views;
        for (const auto& of_sheet : by_sheet) views.push_back(of_sheet[k]);
        const bool last = k + 1 == count, moment = last || (k > 0 && k % pictures_to_a_moment == 0);
        frames.push_back({report::lesson_frame(lesson.title, captions, views), last ? last_s : moment || k == 0 ? standing_s : passing_s});
        if (moment) moments.push_back(std::move(views));
    }
    out.write("strip.png", grid::png_bytes(report::lesson_strip(lesson.title, captions, moments), report::strip_pixels_per_m));
    out.write("lesson.gif", grid::gif_bytes(frames));
}

} // namespace

bool play_lesson(const LessonOptions& o) {
    const std::vector<plan::Lesson> lessons = plan::read_lessons(grid::presets_folder() / "lessons");
    if (o.list) return list(lessons);
    const plan::Lesson& lesson = lesson_named(o.name, lessons);
    if (o.out.empty()) throw grid::BadInput("--out", "is missing", "a folder's name");
    const std::vector<Sheet> sheets = read_sheets(lesson);
    const std::string page = grid::read_text(lesson.folder / plan::lesson_page);
    const double cell_m = cell_m_from(o.cell_mm.value_or(lesson.cell_mm), sheets.front().plan);
    begin_run(o.threads);
    grid::OutputFolder out(o.out);

    std::vector<std::vector<report::LessonView>> by_sheet;
    for (std::size_t k = 0; k < sheets.size(); ++k) {
        rehearsal::Rehearsal run(sheets[k].plan, {.cell_m = cell_m});
        auto views = views_of(run, watched_on(run, sheets[k].watch), times_of(lesson), o.quiet);
        if (!views) {
            std::fprintf(stderr, "stopped; nothing was written\n");
            return false;
        }
        by_sheet.push_back(std::move(*views));
        const std::string name = sheets.size() == 1 ? "sheet.png" : fmt::format("sheet-{}.png", lesson.sheets[k].plan.stem().string());
        out.write(name, report::sheet_picture(run.sheet(), sheet::LookAs::dried));
    }
    write_pictures(lesson, by_sheet, out);
    out.write(plan::lesson_page, page);
    if (stopped_by_painter()) return false;
    out.commit();
    if (!o.quiet)
        fmt::print("{}\nRead {}, look at {} and {}\n", lesson.title, (out.folder() / plan::lesson_page).string(),
                   (out.folder() / "strip.png").string(), (out.folder() / "lesson.gif").string());
    return true;
}

} // namespace tidemark::cli
