#include "report/record_table.h"

#include "grid/csv.h"

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

std::string area_name(const plan::Plan& p, int area) { return area < 0 ? "sheet" : p.areas[area].name; }

void add_acts(const plan::Plan& p, const sheet::Record& record, std::vector<Event>& events) {
    for (const sheet::ActRecord& act : record.acts) {
        const plan::Step& step = p.steps[act.step];
        const std::string verb = plan::act_word(step.act), where = area_name(p, step.area());
        const bool waits = std::holds_alternative<plan::Dry>(step.act);
        const bool began_late = act.gave_up && !waits;
        events.push_back({act.start_s, "begins: " + verb + (began_late ? " (gave up waiting)" : ""), step.name, where});
        if (std::holds_alternative<plan::WhenStage>(step.start))
            events.back().waited_min = act.waited_s / 60;
        if (act.end_s <= 0) // still at it when the run was stopped
            continue;
        const bool stopped_waiting = act.gave_up && waits;
        events.push_back({act.end_s, "ends: " + verb + (stopped_waiting ? " (gave up waiting)" : ""), step.name, where});
        events.back().water_mL = act.water_kg * 1e3;
        events.back().pigment_g = std::accumulate(act.pigment_kg.begin(), act.pigment_kg.end(), 0.0) * 1e3;
    }
}

/// An area is said to be what the larger part of it is: wet, or no wetter than moist, damp, dry.
int stage_of_larger_part(const sheet::StageSample& sample) {
    double wetter = 0;
    for (int k = 0; k < 4; ++k)
        if ((wetter += sample.share[k]) >= 0.5)
            return k;
    return 3;
}

void add_stages(const plan::Plan& p, const sheet::Record& record, std::vector<Event>& events) {
    constexpr int dry = 3;
    std::map<int, int> stage_of;
    for (const sheet::StageSample& sample : record.stages) {
        if (sample.area < 0)
            continue; // half of a sheet is seldom one thing
        int& known = stage_of.try_emplace(sample.area, dry).first->second; // everything starts dry
        const int now = stage_of_larger_part(sample);
        if (now != known)
            events.push_back({sample.time_s, plan::word(static_cast<plan::Stage>(now)), "", area_name(p, sample.area)});
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
