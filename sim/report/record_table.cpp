#include "report/record_table.h"

#include "grid/csv.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace tidemark::report {

namespace {

struct Event {
    double time_s = 0;
    std::string what, step, area;
    double water_mL = NAN, pigment_g = NAN, waited_min = NAN;
};

void add_acts(const plan::Plan& p, const sheet::Record& record, std::vector<Event>& events) {
    for (const sheet::ActRecord& act : record.acts) {
        const plan::Step& step = p.steps[act.step];
        const std::string verb = plan::act_word(step.act), where = plan::area_name(p, step.area());
        events.push_back({act.start_s, "begins: " + verb + (act.gave_up ? " (gave up waiting)" : ""), step.name, where});
        if (std::holds_alternative<plan::WhenStage>(step.start))
            events.back().waited_min = act.waited_s / 60;
        if (!act.ended)
            continue;
        events.push_back({act.end_s, "ends: " + verb + (act.stopped_waiting ? " (gave up waiting)" : ""), step.name, where});
        events.back().water_mL = act.water_kg * 1e3;
        events.back().pigment_g = std::accumulate(act.pigment_kg.begin(), act.pigment_kg.end(), 0.0) * 1e3;
    }
}

/// The driest stage that enough of the area has reached, as waits and windows have it.
int stage_reached(const sheet::StageSample& sample) {
    for (const auto stage : {sheet::CellStage::dry, sheet::CellStage::damp, sheet::CellStage::moist})
        if (sheet::has_reached(sample.share, stage))
            return static_cast<int>(stage);
    return static_cast<int>(sheet::CellStage::wet);
}

void add_stages(const plan::Plan& p, const sheet::Record& record, std::vector<Event>& events) {
    constexpr int dry = 3;
    std::map<int, int> stage_of;
    for (const sheet::StageSample& sample : record.stages) {
        if (sample.area < 0)
            continue; // half of a sheet is seldom one thing
        int& known = stage_of.try_emplace(sample.area, dry).first->second; // everything starts dry
        const int now = stage_reached(sample);
        if (now != known)
            events.push_back({sample.time_s, plan::word(static_cast<plan::Stage>(now)), "", plan::area_name(p, sample.area)});
        known = now;
    }
}

} // namespace

std::string record_table(const plan::Plan& p, const sheet::Record& record) {
    std::vector<Event> events;
    add_acts(p, record, events);
    add_stages(p, record, events);
    std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) { return a.time_s < b.time_s; });
    grid::CsvWriter csv({"time_min", "time", "event", "step", "area", "water_mL", "pigment_g", "waited_min"});
    for (const Event& e : events) {
        csv.number(std::round(e.time_s / 60 * 100) / 100).cell(grid::clock_text(e.time_s));
        csv.cell(e.what).cell(e.step).cell(e.area);
        csv.number(e.water_mL, 4).number(e.pigment_g, 3).number(e.waited_min, 4);
        csv.end_row();
    }
    return csv.text();
}

} // namespace tidemark::report
