#include "reference/picture_masses.h"

#include "grid/problem.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::reference {

namespace {

constexpr double usual_mm = 280, shortest_mm = 30;
constexpr double most_pixels_per_mm = 4, most_pixels = 4e6;

/// A small picture grows smoothly first: of a value map the nearest pixel would be taken, and blocks be seen as masses.
ValueMap map_of(const grid::Picture& picture, int width, int height) {
    if (picture.width < width || picture.height < height)
        return value_map(grid::resized(picture, width, height));
    return resized(value_map(picture), width, height);
}

} // namespace

SheetSize sheet_for(double width, double height, const std::string& name) {
    const double longest = std::max(width, height);
    const SheetSize sheet{std::round(usual_mm * width / longest), std::round(usual_mm * height / longest)};
    if (std::min(sheet.width_mm, sheet.height_mm) < shortest_mm)
        throw grid::BadInput(name, fmt::format("the picture is {:.0f} x {:.0f} pixels", width, height),
                             "no side more than 9 times the other");
    return sheet;
}

double looked_at_pixels_per_mm(const SheetSize& s) {
    return std::min(most_pixels_per_mm, std::sqrt(most_pixels / (s.width_mm * s.height_mm)));
}

PictureMasses masses_in(const grid::Picture& picture, const Looking& how) {
    grid::within("width_mm", how.sheet.width_mm, {1, 1e4, "mm"});
    grid::within("height_mm", how.sheet.height_mm, {1, 1e4, "mm"});
    PictureMasses found;
    found.sheet = how.sheet;
    found.pixels_per_mm = looked_at_pixels_per_mm(how.sheet);
    const auto pixels = [&](double mm) { return std::max(1, static_cast<int>(std::lround(mm * found.pixels_per_mm))); };
    found.map = map_of(picture, pixels(how.sheet.width_mm), pixels(how.sheet.height_mm));
    const int groups = how.masks.empty() ? how.groups : static_cast<int>(how.masks.size());
    found.squinted = squint(found.map, found.pixels_per_mm, groups, how.squint);
    found.groups = found.squinted.groups;
    Masses masses = found.squinted.masses;
    if (!how.masks.empty()) {
        const bool known = how.made_from && how.made_from->width == found.map.width && how.made_from->height == found.map.height;
        ByMasks by = groups_by_masks(how.masks, known ? *how.made_from : found.groups, found.map);
        found.unclaimed = by.unclaimed, found.claimed_twice = by.claimed_twice;
        found.groups = std::move(by.groups), found.means_by_masks = found.groups.mean_lstar;
        masses = find_masses(found.groups, found.map);
    }
    EditedMasses edits = edited(masses, found.map, found.groups.count, found.pixels_per_mm, how.edits);
    found.masses = std::move(edits.masses), found.names = std::move(edits.names), found.renumbered = std::move(edits.renumbered);
    found.groups = groups_of(found.masses, found.map, found.groups);
    return found;
}

Masses fine_masses(const PictureMasses& found, const Squint& how) {
    return find_masses(group_with(blurred(found.map, how.blur_mm * found.pixels_per_mm), found.groups.thresholds), found.map);
}

} // namespace tidemark::reference
