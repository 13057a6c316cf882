/// How large the letters of a printed page may be for it to fit.
///
/// Without setting a single letter: lines are counted from characters, each as wide as those of a broad sans serif are on
/// average, so a narrower one leaves room at the foot.
///
/// Range   pages of 190 × 257 mm, which A4 and Letter both have within margins of 10 mm.
#pragma once
#include <cstddef>
#include <functional>
#include <string_view>
#include <vector>

namespace tidemark::report {

constexpr double printed_width_mm = 190, printed_height_mm = 257;
constexpr double least_type_pt = 6, largest_type_pt = 10;
constexpr double small_type_pt = 7; ///< pictures give way before letters get smaller than that

/// One line's height and the mean width of a character, of letters that large, mm.
double line_mm(double type_pt);
double character_mm(double type_pt);

/// Lines that a text of so many characters takes in a column; at least 1.
double lines_of(std::size_t characters, double width_mm, double type_pt);

/// A table's row of so many lines, with the room above and below and its rule.
double row_mm(double lines, double type_pt);

/// The largest, in quarters of a point, whose page is at most so high; else the least.
double type_pt(const std::function<double(double type_pt)>& height_mm, double room_mm = printed_height_mm);

/// Characters that are seen: of UTF-8, not its bytes.
std::size_t characters(std::string_view);

} // namespace tidemark::report
