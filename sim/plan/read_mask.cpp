#include "plan/reading_detail.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::plan {

namespace fs = std::filesystem;

namespace {

/// A mask needn't be finer than the finest cells: 4000 × 4000 covers a sheet of 1 m at 0.25 mm.
grid::PictureLimits mask_limits() { return {.max_pixels = 16'000'000, .max_file_bytes = 64ll << 20}; }

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

/// A mask of a plan that was read before from the same file.
const grid::GreyPicture* known_picture(const Plan* earlier, const fs::path& file) {
    if (earlier != nullptr)
        for (const Area& area : earlier->areas)
            if (area.file == file && !area.mask.value.empty())
                return &area.mask;
    return nullptr;
}

std::string said_of(Reading& reading, Keys& keys, const std::string& key, const fs::path& file) {
    return keys.said(key + " " + in_quotes(as_named(reading, file)));
}

} // namespace

grid::GreyPicture read_sheet_picture(Reading& reading, Keys& keys, const std::string& key, const fs::path& file) {
    if (const grid::GreyPicture* known = known_picture(reading.earlier, file))
        return *known;
    const int line = keys.line(key);
    const std::string what = said_of(reading, keys, key, file);
    grid::GreyPicture mask;
    try {
        mask = grid::read_grey(file, reading.problems.where(line) + ": " + what, mask_limits());
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
    return mask;
}

void set_mask(Reading& reading, Keys& keys, int area, const fs::path& file) {
    reading.plan.areas[area].file = file;
    grid::GreyPicture mask = read_sheet_picture(reading, keys, "mask", file);
    if (!mask.value.empty() && is_empty(mask)) {
        reading.problems.add(keys.line("mask"), said_of(reading, keys, "mask", file) + " is empty",
                             "white where the area is, black elsewhere");
        mask = {};
    }
    reading.plan.areas[area].mask = std::move(mask);
    reading.resolved[area] = fs::weakly_canonical(file);
}

} // namespace tidemark::plan
