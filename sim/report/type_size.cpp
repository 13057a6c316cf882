#include "report/type_size.h"

#include <algorithm>
#include <cmath>

namespace tidemark::report {

namespace {

constexpr double mm_from_pt = 25.4 / 72;
constexpr double line_of_type = 1.18;      ///< as page_style.cpp has it
constexpr double character_of_type = 0.53; ///< of running text in a broad sans serif
constexpr double row_padding = 0.12, padding_beside = 0.4; ///< of the type, as there
constexpr double ragged = 1.06; ///< words don't fill their lines

} // namespace

double line_mm(double type_pt) { return line_of_type * type_pt * mm_from_pt; }
double character_mm(double type_pt) { return character_of_type * type_pt * mm_from_pt; }

double lines_of(std::size_t characters, double width_mm, double type_pt) {
    const double room = width_mm - padding_beside * type_pt * mm_from_pt;
    const double lines = static_cast<double>(characters) * character_mm(type_pt) / room;
    return lines <= 1 ? 1 : std::ceil(ragged * lines); // one that fits is not ragged
}

double row_mm(double lines, double type_pt) {
    return lines * line_mm(type_pt) + row_padding * type_pt * mm_from_pt + 0.2;
}

double type_pt(const std::function<double(double)>& height_mm, double room_mm) {
    for (double pt = largest_type_pt; pt > least_type_pt; pt -= 0.25)
        if (height_mm(pt) <= room_mm)
            return pt;
    return least_type_pt;
}

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

} // namespace tidemark::report
