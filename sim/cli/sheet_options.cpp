#include "cli/sheet_options.h"

#include "grid/problem.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::cli {

constexpr double shortest_mm = 30, longest_mm = 1200;

std::optional<std::vector<double>> numbers(const std::string& text, const std::string& separators) {
    std::vector<double> values;
    const char *at = text.data(), *end = at + text.size();
    for (std::size_t k = 0; k <= separators.size(); ++k) {
        double value = 0;
        const auto read = std::from_chars(at, end, value);
        if (read.ec != std::errc{} || !std::isfinite(value)) return std::nullopt;
        values.push_back(value);
        at = read.ptr;
        if (k < separators.size() && (at == end || *at++ != separators[k])) return std::nullopt;
    }
    if (at != end) return std::nullopt;
    return values;
}

void refuse(const std::string& option, const std::string& text, const std::string& allowed) {
    throw grid::BadInput(option, fmt::format("\"{}\"", text), allowed);
}

reference::SheetSize sheet_from(const std::string& text) {
    const auto size = numbers(text, "x");
    const auto fits = [](double mm) { return mm >= shortest_mm && mm <= longest_mm; };
    if (!size || !fits((*size)[0]) || !fits((*size)[1]))
        refuse("--sheet-mm", text, "width x height, 30 to 1200 mm each, such as 380x280");
    return {(*size)[0], (*size)[1]};
}

reference::Crop crop_from(const std::string& text, const reference::SheetSize& sheet, int width, int height) {
    const bool follows = sheet.width_mm == 0;
    if (text.empty() && follows) return {0, 0, static_cast<double>(width), static_cast<double>(height)};
    if (text.empty()) return reference::central_crop(width, height, sheet.width_mm, sheet.height_mm);
    const auto n = numbers(text, ",,x");
    const std::string inside = fmt::format("left, top, width x height in pixels of the picture, which is {} x {}, such "
                                           "as 0,0,{}x{}", width, height, width, height);
    if (!n) refuse("--crop", text, inside);
    const reference::Crop crop{(*n)[0], (*n)[1], (*n)[2], (*n)[3]};
    if (crop.x < 0 || crop.y < 0 || crop.width < 1 || crop.height < 1 || crop.x + crop.width > width ||
        crop.y + crop.height > height)
        refuse("--crop", text, inside);
    if (follows) return crop;
    const double aspect = sheet.width_mm / sheet.height_mm;
    if (std::fabs(crop.width / (crop.height * aspect) - 1) > 0.01) {
        const double fits = std::min(crop.width, crop.height * aspect); // within what was asked for, so within the picture
        const double whole_wide = std::floor(fits), whole_high = std::round(whole_wide / aspect);
        const bool whole = whole_high >= 1 && whole_high <= crop.height && std::fabs(whole_wide / (whole_high * aspect) - 1) <= 0.01;
        refuse("--crop", text, fmt::format("the sheet's {:.4g} : 1, within 1 percent, such as {:g},{:g},{:.6g}x{:.6g}", aspect, crop.x,
                                           crop.y, whole ? whole_wide : fits, whole ? whole_high : fits / aspect));
    }
    return crop;
}

} // namespace tidemark::cli
