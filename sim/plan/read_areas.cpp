#include "plan/reading_detail.h"

#include <fmt/format.h>

namespace tidemark::plan {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_areas = 256;

/// A place for the area in the plan, still empty; `key` is the one to blame. whole_sheet after a problem.
int add_area(Reading& reading, Keys& keys, const std::string& key, const std::string& name) {
    std::vector<Area>& areas = reading.plan.areas;
    if (areas.size() == most_areas) {
        keys.refuse(key, "one area too many", fmt::format("at most {}", most_areas));
        return whole_sheet;
    }
    if (name == sheet_name || name == paper_name || name.empty()) {
        keys.refuse(key, fmt::format("an area can't be called {}", in_quotes(name)),
                    "any other name; \"sheet\" is the whole sheet, \"paper\" is what stays bare");
        return whole_sheet;
    }
    areas.push_back({name, {}, {}});
    reading.resolved.emplace_back();
    return static_cast<int>(areas.size()) - 1;
}

/// mask = "masks/sky.png" in a step: the area "sky", made by the first step that names the file.
int area_of_mask(Reading& reading, Keys& keys) {
    const fs::path file = file_in_folder(reading, keys, "mask");
    if (file.empty())
        return whole_sheet;
    const std::string name = file.stem().string();
    const int known = reading.plan.area_index(name);
    if (known < 0) {
        const int made = add_area(reading, keys, "mask", name);
        if (made >= 0)
            set_mask(reading, keys, made, file);
        return made;
    }
    if (reading.resolved[known] == fs::weakly_canonical(file))
        return known;
    const fs::path& other = reading.plan.areas[known].file;
    keys.refuse("mask",
                fmt::format("two areas are called {}: {} and {}", in_quotes(name),
                            other.empty() ? fmt::format("[area.{}]", name)
                                          : in_quotes(as_named(reading, other)),
                            in_quotes(as_named(reading, file))),
                "another file name, or [area.NAME] with a name of its own");
    return whole_sheet;
}

const std::vector<std::string>& area_kinds() {
    static const std::vector<std::string> kinds = [] {
        std::vector<std::string> all{"mask"};
        for (const auto* some : {&shape_keys(), &set_keys()})
            all.insert(all.end(), some->begin(), some->end());
        return all;
    }();
    return kinds;
}

/// Which of the kinds of area it is; empty after a problem. A key that no area knows is reported by itself.
std::string kind_of(Keys& keys) {
    std::vector<std::string> given;
    for (const std::string& key : area_kinds())
        if (keys.has(key))
            given.push_back(key);
    const auto belongs = [](const Entry& e) { return e.key == "soft_mm" || e.key == "width_mm"; };
    if (given.size() == 1)
        return given[0];
    if (given.size() > 1)
        keys.refuse(given[1], fmt::format("{} in one area", fmt::join(given, " and ")), "one of them");
    else if (std::all_of(keys.entries().begin(), keys.entries().end(), belongs))
        keys.refuse("mask", "nothing says where it is", fmt::format("one of {}", fmt::join(area_kinds(), ", ")));
    return {};
}

void read_area(Reading& reading, const Entry& entry) {
    AreaKeys made{Keys(entry.value, "area " + in_quotes(entry.key), reading.problems), whole_sheet, {}, false};
    Keys& keys = made.keys;
    made.kind = kind_of(keys);
    made.area = add_area(reading, keys, made.kind, entry.key);
    const bool is_shape = std::count(shape_keys().begin(), shape_keys().end(), made.kind) > 0;
    if (keys.has("soft_mm") && !made.kind.empty() && !is_shape)
        keys.refuse("soft_mm", "soft_mm without a shape", fmt::format("with {}", fmt::join(shape_keys(), ", ")));
    if (keys.has("width_mm") && !made.kind.empty() && made.kind != "line_mm")
        keys.refuse("width_mm", "width_mm without a line", "with line_mm");
    if (made.kind == "mask") {
        const fs::path file = file_in_folder(reading, keys, "mask");
        if (!file.empty() && made.area >= 0)
            set_mask(reading, keys, made.area, file);
        made.sound = made.area >= 0 && !reading.plan.areas[made.area].mask.value.empty();
    } else if (is_shape) {
        Area unnamed;
        made.sound = read_shape(made, made.area >= 0 ? reading.plan.areas[made.area] : unnamed) && made.area >= 0;
    }
    keys.finish();
    reading.areas.push_back(std::move(made));
}

} // namespace

void read_areas(Reading& reading, Keys& root) {
    const Value* areas = root.table("area");
    if (areas == nullptr)
        return;
    for (const Entry& entry : areas->table) {
        if (entry.value.kind == Value::Kind::table)
            read_area(reading, entry);
        else
            reading.problems.add(entry.line,
                                 fmt::format("area {} is {}", in_quotes(entry.key), described(entry.value)),
                                 "a table, [area.NAME], that says where it is");
    }
}

void read_step_areas(Reading& reading, std::vector<StepKeys>& steps) {
    const auto has_area = [](const StepKeys& step) { return step.verb != "tilt"; };
    for (StepKeys& step : steps) // masks first: a later step's mask is an area for an earlier step too
        if (has_area(step) && step.keys.has("mask"))
            step.area = area_of_mask(reading, step.keys);
    for (StepKeys& step : steps) {
        if (!has_area(step) || !step.keys.has("area"))
            continue;
        if (step.keys.has("mask")) {
            step.keys.refuse("area", "mask and area in one step", "one of them");
            continue;
        }
        const std::string name = step.keys.text("area");
        if (!name.empty())
            step.area = area_named(reading, step.keys, "area", name);
    }
}

int area_named(Reading& reading, Keys& keys, const std::string& key, const std::string& name) {
    const int index = reading.plan.area_index(name);
    if (index >= whole_sheet)
        return index;
    const Hint h = hint(name, area_names(reading.plan), "\"sheet\": the plan has no other area");
    keys.refuse(key, "unknown area " + in_quotes(name) + h.nearest, h.allowed);
    return whole_sheet;
}

} // namespace tidemark::plan
