#include "reference/crop.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

Crop central_crop(int width, int height, double sheet_width_mm, double sheet_height_mm) {
    Crop crop{0, 0, static_cast<double>(width), static_cast<double>(height)};
    const double aspect = sheet_width_mm / sheet_height_mm;
    if (width > height * aspect)
        crop.width = height * aspect;
    else
        crop.height = width / aspect;
    crop.x = (width - crop.width) / 2, crop.y = (height - crop.height) / 2;
    return crop;
}

FallsAway falls_away(const Crop& crop, int width, int height, double sheet_width_mm) {
    const double mm = sheet_width_mm / crop.width;
    return {crop.x * mm, (width - crop.x - crop.width) * mm, crop.y * mm, (height - crop.y - crop.height) * mm,
            1 - crop.width * crop.height / (static_cast<double>(width) * height)};
}

grid::Picture cut_out(const grid::Picture& picture, const Crop& crop, int full_width, int full_height) {
    // From and to the nearest pixel, at least one of them.
    const auto span = [](double from, double length, int full, int pixels) {
        const double scale = static_cast<double>(pixels) / full;
        const int begin = std::clamp(static_cast<int>(std::lround(from * scale)), 0, pixels - 1);
        return std::pair(begin, std::clamp(static_cast<int>(std::lround((from + length) * scale)), begin + 1, pixels));
    };
    const auto [left, right] = span(crop.x, crop.width, full_width, picture.width);
    const auto [top, bottom] = span(crop.y, crop.height, full_height, picture.height);
    grid::Picture part{right - left, bottom - top, {}};
    for (int y = top; y < bottom; ++y) {
        const std::uint8_t* row = picture.at(left, y);
        part.rgb.insert(part.rgb.end(), row, row + 3 * static_cast<std::ptrdiff_t>(part.width));
    }
    return part;
}

} // namespace tidemark::reference
