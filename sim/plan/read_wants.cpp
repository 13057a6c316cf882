#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace {

/// An area's or a step's name, or "paper". A name that is both must mean one region.
void check_side(Reading& reading, Keys& want, const std::string& name) {
    const Plan& plan = reading.plan;
    const int area = plan.area_index(name), step = plan.step_index(name);
    if (area >= 0 && step >= 0 && plan.steps[step].area() != area)
        return want.refuse("between", in_quotes(name) + " is an area, and a step that works on another one",
                           "another name for the step");
    if (name == paper_name || area >= 0 || step >= 0)
        return;
    std::vector<std::string> names = area_names(plan);
    for (const Step& s : plan.steps)
        names.push_back(s.name);
    names.push_back(paper_name);
    const Hint h = hint(name, names, "");
    want.refuse("between", "unknown area or step " + in_quotes(name) + h.nearest, h.allowed);
}

} // namespace

void read_wants(Reading& reading, Keys& root) {
    const std::vector<Value>* tables = root.tables("want");
    if (tables == nullptr)
        return;
    for (const Value& table : *tables) {
        Keys keys(table, "[[want]]", reading.problems);
        Want want;
        want.line = table.line;
        want.edge = keys.word("edge", edges);
        const Value* between = keys.find("between");
        const auto is_name = [](const Value& v) { return v.kind == Value::Kind::text; };
        const std::string allowed = "two names, between = [\"sky\", \"hills\"]";
        if (between == nullptr) {
            keys.refuse("between", "between is missing", allowed);
        } else if (between->kind != Value::Kind::list || between->list.size() != 2 ||
                   !std::all_of(between->list.begin(), between->list.end(), is_name)) {
            keys.refuse("between", "between is " + described(*between) + " of another shape", allowed);
        } else {
            want.first = between->list[0].text, want.second = between->list[1].text;
            check_side(reading, keys, want.first);
            if (want.second != want.first)
                check_side(reading, keys, want.second);
            if (want.second == want.first)
                keys.refuse("between", "between names " + in_quotes(want.first) + " twice", "two different names");
        }
        keys.finish();
        reading.plan.wants.push_back(std::move(want));
    }
}

} // namespace tidemark::plan
