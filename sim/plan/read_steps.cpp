#include "plan/reading_detail.h"

#include <fmt/format.h>

#include <map>
#include <set>

namespace tidemark::plan {

namespace {

constexpr std::size_t most_steps = 5000;

/// The verbs and the names that the plan gives. A step without a known verb is dropped after its message.
std::vector<StepKeys> verbs_and_names(Reading& reading, const std::vector<Value>& tables) {
    std::vector<StepKeys> steps;
    std::set<std::string> taken;
    for (const Value& table : tables) {
        StepKeys step{Keys(table, "step", reading.problems), "", "", whole_sheet};
        step.name = step.keys.text("name", "");
        if (!step.name.empty())
            step.keys.rename("step " + in_quotes(step.name));
        const auto& verbs = act_words();
        step.verb = step.keys.text("do", {}, fmt::format("an act in quotes: {}", fmt::join(verbs, ", ")));
        if (!step.verb.empty() && std::find(verbs.begin(), verbs.end(), step.verb) == verbs.end()) {
            step.keys.refuse("do", "unknown act " + in_quotes(step.verb), fmt::format("{}", fmt::join(verbs, ", ")));
            step.verb.clear();
        }
        if (step.name == paper_name || step.name == sheet_name)
            step.keys.refuse("name", fmt::format("a step can't be called {}", in_quotes(step.name)),
                             "any other name");
        if (!step.name.empty() && !taken.insert(step.name).second)
            step.keys.refuse("name", "another step has that name", "a name of its own");
        steps.push_back(std::move(step));
    }
    return steps;
}

/// "wash", then "wash 2": the first that no other step has.
void name_the_nameless(std::vector<StepKeys>& steps) {
    std::set<std::string> taken;
    std::map<std::string, int> numbers; // by verb, the next to try
    for (const StepKeys& step : steps)
        taken.insert(step.name);
    for (StepKeys& step : steps) {
        if (!step.name.empty())
            continue;
        const std::string verb = step.verb.empty() ? "step" : step.verb;
        int& number = numbers.try_emplace(verb, 1).first->second;
        std::string name;
        do
            name = number == 1 ? verb : fmt::format("{} {}", verb, number);
        while (++number, !taken.insert(name).second);
        step.name = name;
        step.keys.rename("step " + in_quotes(name));
    }
}

/// Resist comes off where it was put.
void check_uncovers(Reading& reading, std::vector<StepKeys>& keys) {
    const std::vector<Step>& steps = reading.plan.steps;
    for (std::size_t k = 0; k < steps.size(); ++k) {
        const Uncover* uncover = std::get_if<Uncover>(&steps[k].act);
        if (uncover == nullptr)
            continue;
        std::vector<std::string> reserved;
        for (std::size_t before = 0; before < k; ++before)
            if (const Reserve* reserve = std::get_if<Reserve>(&steps[before].act))
                reserved.push_back(reserve->area < 0 ? sheet_name : reading.plan.areas[reserve->area].name);
        const std::string name = uncover->area < 0 ? sheet_name : reading.plan.areas[uncover->area].name;
        const bool put = std::any_of(reserved.begin(), reserved.end(), [&](const std::string& r) {
            return r == name || r == sheet_name || name == sheet_name;
        });
        if (!put)
            keys[k].keys.refuse("area", "nothing reserves " + in_quotes(name) + " before",
                                reserved.empty() ? "an area that a step above reserves"
                                                 : fmt::format("{}, or the sheet", fmt::join(reserved, ", ")));
    }
}

} // namespace

void read_steps(Reading& reading, Keys& root) {
    const std::vector<Value>* tables = root.tables("step");
    if (tables == nullptr) {
        const bool absent = !root.has("step");
        if (absent)
            root.refuse("step", "the plan has no step", "at least one [[step]]");
        return;
    }
    if (tables->size() > most_steps)
        return reading.problems.add((*tables)[most_steps].line, "one step too many", fmt::format("{}", most_steps));
    std::vector<StepKeys> steps = verbs_and_names(reading, *tables);
    name_the_nameless(steps);
    read_step_areas(reading, steps);
    for (StepKeys& step : steps) {
        Step made;
        made.name = step.name;
        made.line = step.keys.line();
        if (!step.verb.empty())
            made.act = read_act(reading, step);
        reading.plan.steps.push_back(std::move(made));
    }
    read_starts(reading, steps);
    if (reading.plan.steps.size() == steps.size())
        check_uncovers(reading, steps);
    for (StepKeys& step : steps)
        if (!step.verb.empty())
            step.keys.finish();
}

} // namespace tidemark::plan
