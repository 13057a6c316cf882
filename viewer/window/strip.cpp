#include "viewer/window/strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "sheet/stage.h"

namespace tidemark::viewer {

namespace {

int stage_of(const StageLine::Sample& s) {
    const double share[4] = {s.share[0], s.share[1], s.share[2], s.share[3]};
    int stage = 0;
    for (const auto k : {sheet::CellStage::moist, sheet::CellStage::damp, sheet::CellStage::dry})
        if (sheet::has_reached(share, k))
            stage = static_cast<int>(k);
    return stage;
}

/// Of the samples in from_s ... to_s, appended; one stage grows on.
void add_spans(std::vector<StripSpan>& spans, const StageLine& line, double from_s, double to_s) {
    for (std::size_t k = 0; k < line.samples.size(); ++k) {
        const auto& s = line.samples[k];
        const double until = std::min(to_s, k + 1 < line.samples.size() ? line.samples[k + 1].time_s : s.time_s);
        const double from = std::max(from_s, s.time_s);
        if (until <= from)
            continue;
        const int stage = stage_of(s);
        if (!spans.empty() && spans.back().stage == stage && spans.back().to_s >= from - 1e-6)
            spans.back().to_s = until;
        else
            spans.push_back({from, until, stage});
    }
}

StripAct act_of(const plan::Plan& plan, const ActSpan& a) {
    const plan::Step& step = plan.steps[static_cast<std::size_t>(a.step)];
    return {a.step, a.start_s, a.end_s, a.waited_s, step.name, plan::act_word(step.act), a.waited_for, true};
}

void take_acts(std::map<int, StripAct>& acts, const plan::Plan& plan, const Run* run, double from_s) {
    if (run == nullptr)
        return;
    for (const ActSpan& a : run->acts())
        if (a.start_s >= from_s && a.step >= 0 && a.step < static_cast<int>(plan.steps.size()))
            acts.try_emplace(a.step, act_of(plan, a));
}

/// Where the sheet has lost its film for good.
double film_gone_s(const Run& run) {
    const StageLine line = run.stages(-1);
    double gone = 0;
    for (const auto& s : line.samples)
        if (stage_of(s) < static_cast<int>(sheet::CellStage::damp))
            gone = s.time_s;
    return gone;
}

} // namespace

const StripAct* Strip::act(int step) const {
    for (const StripRow& row : rows)
        for (const StripAct& a : row.acts)
            if (a.step == step)
                return &a;
    return nullptr;
}

std::vector<const StripAct*> Strip::in_order() const {
    std::vector<const StripAct*> all;
    for (const StripRow& row : rows)
        for (const StripAct& a : row.acts)
            all.push_back(&a);
    std::stable_sort(all.begin(), all.end(), [](const auto* a, const auto* b) { return a->start_s < b->start_s; });
    return all;
}

Strip gather(const plan::Plan& plan, const Run* draft, const Run* truth, const Strip& before) {
    Strip strip;
    const bool true_is_all = truth != nullptr && truth->progress().is == RunProgress::Is::finished;
    strip.true_s = truth != nullptr ? truth->progress().time_s : 0;
    if (truth != nullptr && !true_is_all && truth->reel().last_s() < 0)
        truth = nullptr;
    const double true_s = truth != nullptr ? strip.true_s : -1;
    std::map<int, StripAct> acts;
    take_acts(acts, plan, truth, -1);
    if (!true_is_all)
        take_acts(acts, plan, draft, true_s);
    for (const Run* run : {draft, truth})
        if (run != nullptr)
            strip.reached_s = std::max(strip.reached_s, run->reel().last_s());
    const bool whole = true_is_all || (draft != nullptr && draft->progress().is == RunProgress::Is::finished);
    if (!whole)
        for (const StripAct* a : before.in_order())
            if (a->start_s > strip.reached_s && a->step < static_cast<int>(plan.steps.size())) {
                StripAct old = *a;
                old.played = false;
                acts.try_emplace(old.step, old);
            }
    std::map<int, std::vector<StripAct>> by_area;
    for (const auto& [step, a] : acts)
        by_area[plan.steps[static_cast<std::size_t>(step)].area()].push_back(a);
    for (auto& [area, list] : by_area) {
        std::sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.start_s < b.start_s; });
        StripRow row;
        row.area = area;
        row.name = area >= 0 ? plan.areas[static_cast<std::size_t>(area)].name : "the sheet";
        if (truth != nullptr)
            add_spans(row.spans, truth->stages(area), 0, true_is_all ? 1e18 : true_s);
        if (!true_is_all && draft != nullptr)
            add_spans(row.spans, draft->stages(area), std::max(true_s, 0.0), 1e18);
        for (const StripAct& a : list)
            strip.end_s = std::max(strip.end_s, a.end_s);
        row.acts = std::move(list);
        strip.rows.push_back(std::move(row));
    }
    std::stable_sort(strip.rows.begin(), strip.rows.end(),
                     [](const auto& a, const auto& b) { return a.acts.front().start_s < b.acts.front().start_s; });
    const Run* last = true_is_all ? truth : draft;
    if (last != nullptr)
        strip.end_s = std::max(strip.end_s, film_gone_s(*last));
    strip.end_s = std::ceil(strip.end_s * 1.02 / 60) * 60;
    if (!whole) // it grows by ten minutes, so that the axis stands still most of the time
        strip.end_s = std::max(std::ceil((strip.reached_s + 60) / 600) * 600, before.rows.empty() ? 0 : before.end_s);
    return strip;
}

double axis_step_min(double end_s, double marks) {
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0})
        if (end_s / 60 / step <= marks)
            return step;
    return 60 * std::ceil(end_s / 3600 / marks);
}

std::string clock_text(double s) {
    const long whole = std::lround(std::max(s, 0.0));
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

} // namespace tidemark::viewer
