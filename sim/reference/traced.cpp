#include "reference/traced.h"

#include "reference/squint.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

constexpr double squinted_mm = 280; // the longer side of a sheet for which the squint's widths are meant

Squint grown(Squint how, double times) {
    how.blur_mm *= times, how.vote_mm *= times, how.crumb_mm2 *= times * times;
    return how;
}

} // namespace

Traced traced(const grid::Picture& picture, double width_mm, double height_mm, int groups) {
    const double longest_mm = std::max(width_mm, height_mm), pixels_per_mm = traced_pixels / longest_mm;
    const double times = longest_mm / squinted_mm;
    const int width = std::max(1, static_cast<int>(std::lround(width_mm * pixels_per_mm)));
    const int height = std::max(1, static_cast<int>(std::lround(height_mm * pixels_per_mm)));
    // A small picture grows smoothly first; of a value map the nearest pixel would be taken, and blocks be traced.
    const bool small = picture.width < width || picture.height < height;
    const ValueMap map = small ? value_map(grid::resized(picture, width, height))
                               : resized(value_map(picture), width, height);
    const SquintResult squinted = squint(map, pixels_per_mm, groups, grown({}, times));
    const Tracing how;
    return {static_cast<int>(squinted.masses.list.size()),
            outlines(squinted.masses, width_mm, height_mm, {how.smooth_mm * times, how.tolerance_mm * times})};
}

} // namespace tidemark::reference
