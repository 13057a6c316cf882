#include "report/cue_sheet.h"

#include "grid/csv.h"
#include "grid/units.h"
#include "report/act_text.h"
#include "report/plan_cautions.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tidemark::report {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::string clock(double minutes) { return grid::clock_text(60 * minutes); }

std::vector<StageSpan> ribbon_of(const judge::Window& w) {
    std::vector<StageSpan> spans;
    const double begins[] = {w.wet_from_min, w.moist_min, w.damp_min, w.dry_min};
    for (int k = 0; k < 4; ++k) {
        if (std::isnan(begins[k]))
            continue;
        if (!spans.empty())
            spans.back().to_min = begins[k];
        spans.push_back({static_cast<plan::Stage>(k), begins[k], w.until_min});
    }
    return spans;
}

/// When its sheen, film and damp go; and what it still is when it is left or painted again before that.
std::string drying_text(const judge::Window& w, double end_min) {
    std::string text;
    const auto add = [&](const char* what, double minute) {
        if (!std::isnan(minute))
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ", what, clock(minute));
    };
    add("sheen goes", w.moist_min);
    add("damp", w.damp_min);
    add("dry", w.dry_min);
    if (!std::isnan(w.dry_min))
        return text;
    const char* still = std::isnan(w.moist_min) ? "wet" : std::isnan(w.damp_min) ? "moist" : "damp";
    const bool at_the_end = w.until_min >= end_min - 1e-9;
    return text + fmt::format("{}still {} {}", text.empty() ? "" : ", ", still,
                              at_the_end ? "at the end" : fmt::format("at {}, when more comes", clock(w.until_min)));
}

/// What an act waited for before it began.
std::string waiting_text(const plan::Plan& plan, const plan::Step& step, const sheet::ActRecord* act) {
    const auto* when = std::get_if<plan::WhenStage>(&step.start);
    if (when == nullptr)
        return {};
    const std::string whose = when->area == plan::whole_sheet ? "the sheet" : place_text(plan, when->area);
    if (act != nullptr && act->gave_up)
        return fmt::format("{} was not {} after {}: begun all the same", whose, plan::word(when->is), clock(act->waited_s / 60));
    return fmt::format("begin when {} is {}", whose, plan::word(when->is));
}

std::string joined(const std::string& a, const std::string& b) {
    return a.empty() || b.empty() ? a + b : fmt::format("{}; {}", a, b);
}

Cue cue_of(const plan::Plan& plan, int k, const sheet::ActRecord* act, const judge::Window* window, double end_min) {
    const plan::Step& step = plan.steps[k];
    Cue cue;
    cue.step = k;
    cue.name = step.name, cue.doing = act_text(plan, step), cue.mix = mix_text(plan, step);
    cue.waits = std::holds_alternative<plan::Dry>(step.act);
    cue.from_min = act ? act->start_s / 60 : none;
    cue.to_min = act ? (act->ended ? act->end_s / 60 : end_min) : none;
    cue.watch = waiting_text(plan, step, act);
    if (act != nullptr) {
        cue.laid_mL = grid::mL_from_m3(act->water_kg / grid::water_kg_m3);
        cue.brush_loads = act->brush_loads;
        if (act->stopped_waiting)
            cue.watch = fmt::format("not yet {} when the wait was over", plan::word(*std::get<plan::Dry>(step.act).until));
        if (!act->ended)
            cue.watch = joined(cue.watch, "stopped in the middle of it");
    } else {
        cue.watch = joined(cue.watch, "not played in this run");
    }
    if (window != nullptr) {
        cue.watch = joined(cue.watch, drying_text(*window, end_min));
        cue.ribbon = ribbon_of(*window);
    }
    return cue;
}

std::string title_of(const plan::Plan& plan) {
    const std::string stem = plan.file.stem().string();
    if (plan.file.empty())
        return "plan";
    if (stem != "plan")
        return stem;
    const std::string folder = std::filesystem::absolute(plan.file).lexically_normal().parent_path().filename().string();
    return folder.empty() ? "plan" : folder;
}

std::string set_up_of(const plan::Plan& p) {
    const double tilt = std::round(10 * p.tilt_rad / grid::rad_from_deg(1)) / 10;
    return fmt::format("{:g} × {:g} mm of {}; {} board, {}; {}, {:.0f} °C, {:.0f} % humidity", grid::mm_from_m(p.width_m),
                       grid::mm_from_m(p.height_m), p.paper.id, plan::word(p.board),
                       tilt > 0 ? fmt::format("tilted by {:g}°", tilt) : "flat", p.room.id, p.room.temperature_K - 273.15,
                       100 * p.room.humidity);
}

std::string outcome_of(const plan::Plan& plan, const sheet::Record& r) {
    if (r.dried)
        return fmt::format("Dry at {}.", grid::clock_text(r.end_s));
    const auto done = std::count_if(r.acts.begin(), r.acts.end(), [](const auto& a) { return a.ended; });
    return fmt::format("Stopped at {}, not dry yet: {} of {} steps were done.", grid::clock_text(r.end_s), done,
                       plan.steps.size());
}

} // namespace

CueSheet cue_sheet(const plan::Plan& plan,
                   const sheet::Record& record,
                   const judge::Verdicts& verdicts,
                   const std::vector<materials::Caution>& cautions) {
    CueSheet all;
    all.title = title_of(plan), all.set_up = set_up_of(plan), all.outcome = outcome_of(plan, record);
    all.end_min = record.end_s / 60;
    std::vector<bool> played(plan.steps.size());
    for (const sheet::ActRecord& act : record.acts) {
        const auto window = std::find_if(verdicts.windows.begin(), verdicts.windows.end(), [&](const judge::Window& w) {
            return w.step == act.step;
        });
        all.cues.push_back(
            cue_of(plan, act.step, &act, window == verdicts.windows.end() ? nullptr : &*window, all.end_min));
        played[act.step] = true;
    }
    std::stable_sort(all.cues.begin(), all.cues.end(), [](const Cue& a, const Cue& b) { return a.from_min < b.from_min; });
    for (std::size_t k = 0; k < played.size(); ++k)
        if (!played[k])
            all.cues.push_back(cue_of(plan, static_cast<int>(k), nullptr, nullptr, all.end_min));
    all.mixes = verdicts.mixes;
    all.cautions = cautions_for(plan, cautions, true);
    return all;
}

} // namespace tidemark::report
