#include "plan/reading_detail.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::plan {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_areas = 64;
/// A mask needn't be finer than the finest cells: 4000 × 4000 covers a sheet of 1 m at 0.25 mm.
const grid::PictureLimits mask_limits{16'000'000, 64ll << 20};

bool has_sheets_aspect(const grid::GreyPicture& mask, const Plan& plan) {
    const double aspect = plan.width_m / plan.height_m;
    const bool within = std::fabs(mask.width / (mask.height * aspect) - 1) <= 0.01;
    // A small mask's sides are whole numbers: half a pixel of rounding each way.
    const bool rounded = std::fabs(mask.width - mask.height * aspect) <= 0.5 + 1e-9 ||
                         std::fabs(mask.height - mask.width / aspect) <= 0.5 + 1e-9;
    return within || rounded;
}

bool is_empty(const grid::GreyPicture& mask) {
    return std::none_of(mask.value.begin(), mask.value.end(), [](float v) { return v >= 0.5f; });
}

/// Reads and judges the mask; a problem leaves it empty.
grid::GreyPicture read_mask(Reading& reading, Keys& keys, const fs::path& file) {
    const int line = keys.line("mask");
    const std::string what = keys.said("mask " + in_quotes(file.lexically_relative(reading.folder).string()));
    grid::GreyPicture mask;
    try {
        mask = grid::read_grey(file, reading.problems.where(line) + ": " + what, mask_limits);
    } catch (const grid::BadInput& bad) {
        reading.problems.add(line, bad);
        return {};
    }
    const Plan& plan = reading.plan;
    if (plan.width_m > 0 && !has_sheets_aspect(mask, plan)) {
        reading.problems.add(line,
                             fmt::format("{} is {} x {} pixels, {:.4g} : 1", what, mask.width, mask.height,
                                         static_cast<double>(mask.width) / mask.height),
                             fmt::format("the sheet's {:.4g} : 1, within 1 percent", plan.width_m / plan.height_m));
        return {};
    }
    if (is_empty(mask)) {
        reading.problems.add(line, what + " is empty", "white where the area is, black elsewhere");
        return {};
    }
    return mask;
}

int add_area(Reading& reading, Keys& keys, const std::string& name, const fs::path& file) {
    std::vector<Area>& areas = reading.plan.areas;
    if (areas.size() == most_areas) {
        keys.refuse("mask", "one area too many", fmt::format("at most {}", most_areas));
        return whole_sheet;
    }
    if (name == sheet_name || name == paper_name || name.empty()) {
        keys.refuse("mask", fmt::format("an area can't be called {}", in_quotes(name)),
                    "any other name; \"sheet\" is the whole sheet, \"paper\" is what stays bare");
        return whole_sheet;
    }
    areas.push_back({name, file, read_mask(reading, keys, file)});
    reading.resolved.push_back(fs::weakly_canonical(file));
    return static_cast<int>(areas.size()) - 1;
}

/// mask = "masks/sky.png" in a step: the area "sky", made by the first step that names the file.
int area_of_mask(Reading& reading, Keys& keys) {
    const fs::path file = file_in_folder(reading, keys, "mask");
    if (file.empty())
        return whole_sheet;
    const std::string name = file.stem().string();
    const int known = reading.plan.area_index(name);
    if (known < 0)
        return add_area(reading, keys, name, file);
    if (reading.resolved[known] == fs::weakly_canonical(file))
        return known;
    keys.refuse("mask",
                fmt::format("two areas are called {}: {} and {}", in_quotes(name),
                            in_quotes(reading.plan.areas[known].file.lexically_relative(reading.folder).string()),
                            in_quotes(file.lexically_relative(reading.folder).string())),
                "another file name, or [area.NAME] with a name of its own");
    return whole_sheet;
}

} // namespace

void read_areas(Reading& reading, Keys& root) {
    const Value* areas = root.table("area");
    if (areas == nullptr)
        return;
    for (const Entry& entry : areas->table) {
        if (entry.value.kind != Value::Kind::table) {
            reading.problems.add(entry.line,
                                 fmt::format("area {} is {}", in_quotes(entry.key), described(entry.value)),
                                 "a table, [area.NAME], with a mask");
            continue;
        }
        Keys keys(entry.value, "area " + in_quotes(entry.key), reading.problems);
        const fs::path file = file_in_folder(reading, keys, "mask");
        if (!file.empty())
            add_area(reading, keys, entry.key, file);
        keys.finish();
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
    const Hint h = hint(name, area_names(reading.plan), "\"sheet\": the plan has no mask");
    keys.refuse(key, "unknown area " + in_quotes(name) + h.nearest, h.allowed);
    return whole_sheet;
}

} // namespace tidemark::plan
