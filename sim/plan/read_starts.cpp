#include "grid/csv.h"
#include "plan/reading_detail.h"
#include "plan/schedule.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

AfterStep read_after(Reading& reading, Keys& keys) {
    AfterStep start;
    const std::string name = keys.text("after", {}, "a step's name in quotes");
    start.wait_s = keys.clock("wait", 0);
    start.step = std::max(0, reading.plan.step_index(name));
    if (name.empty() || reading.plan.step_index(name) >= 0)
        return start;
    std::vector<std::string> names;
    for (const Step& step : reading.plan.steps)
        names.push_back(step.name);
    const Hint h = hint(name, names, "");
    keys.refuse("after", "unknown step " + in_quotes(name) + h.nearest, h.allowed);
    return start;
}

WhenStage read_when(Reading& reading, Keys& keys, const std::string& step) {
    WhenStage start;
    start.area = whole_sheet;
    const Value* table = keys.find("when");
    if (table->kind != Value::Kind::table) {
        keys.refuse("when", "when is " + described(*table), "when = { area = \"sky\", is = \"damp\" }");
        return start;
    }
    Keys when(*table, "step " + in_quotes(step) + ": when", reading.problems);
    const std::string area = when.text("area", sheet_name);
    start.area = area_named(reading, when, "area", area);
    start.is = when.word("is", stages);
    start.longest_s = when.clock("longest", 3600);
    start.share = when.number("share", share_of_area, usual_share(start.is));
    when.finish();
    return start;
}

/// `index`: of the step. Without a start of its own a step follows the one before, the first begins at 0:00.
Start read_start(Reading& reading, StepKeys& step, int index) {
    Keys& keys = step.keys;
    std::vector<std::string> given;
    for (const char* key : {"at", "after", "when"})
        if (keys.has(key))
            given.push_back(key);
    if (given.size() > 1)
        keys.refuse(given[1], fmt::format("{} in one step", fmt::join(given, " and ")), "one of at, after, when");
    if (keys.has("wait") && !keys.has("after"))
        keys.refuse("wait", "wait without after", "after = \"a step's name\"");
    if (keys.has("when") && step.verb != "dry" && keys.has("longest"))
        keys.refuse("longest", "longest beside when", "inside it, when = { is = \"damp\", longest = \"60:00\" }");
    if (keys.has("at"))
        return AtTime{keys.clock("at")};
    if (keys.has("after"))
        return read_after(reading, keys);
    if (keys.has("when"))
        return read_when(reading, keys, step.name);
    return index == 0 ? Start(AtTime{0}) : Start(AfterStep{index - 1, 0});
}

void check_times_run_forward(Reading& reading, std::vector<StepKeys>& keys) {
    const Step* latest = nullptr;
    for (std::size_t k = 0; k < keys.size(); ++k) {
        const Step& step = reading.plan.steps[k];
        const AtTime* at = std::get_if<AtTime>(&step.start);
        if (at == nullptr || !keys[k].keys.has("at"))
            continue;
        const double latest_s = latest == nullptr ? 0 : std::get<AtTime>(latest->start).time_s;
        if (at->time_s < latest_s)
            keys[k].keys.refuse("at",
                                fmt::format("at is {}, but step {} above is at {}", grid::clock_text(at->time_s),
                                            in_quotes(latest->name), grid::clock_text(latest_s)),
                                fmt::format("{} or later: times run forward", grid::clock_text(latest_s)));
        else
            latest = &step;
    }
}

} // namespace

void read_starts(Reading& reading, std::vector<StepKeys>& keys) {
    std::vector<Step>& steps = reading.plan.steps;
    for (std::size_t k = 0; k < keys.size(); ++k)
        steps[k].start = read_start(reading, keys[k], static_cast<int>(k));
    check_times_run_forward(reading, keys);
    for (const std::vector<int>& ring : waiting_rings(steps)) {
        std::string names;
        for (const int k : ring)
            names += in_quotes(steps[k].name) + " waits for ";
        const bool itself = ring.size() == 1;
        keys[ring[0]].keys.refuse("after", "steps wait on each other: " + names +
                                               (itself ? "itself" : in_quotes(steps[ring[0]].name)));
    }
}

} // namespace tidemark::plan
