/// A part of the sheet: painted in a mask, drawn as a simple shape, or made of other areas.
///
/// Points are metres from the sheet's top left corner, x to the right, y down; shapes may reach beyond the sheet.
/// A shape's edge is a ramp of `soft_m` centred on its outline: full at half of it inside, none at half of it outside.
#pragma once
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include "grid/picture.h"

namespace tidemark::plan {

constexpr int whole_sheet = -1;

struct Point { double x_m = 0, y_m = 0; };
/// Squared distance, m², of (x, y) from the straight piece between a and b; a piece without length is a point.
double squared_distance_m2(const Point& a, const Point& b, double x_m, double y_m);
struct Mask {}; ///< Area::mask says it all
struct Rectangle { double x_m = 0, y_m = 0, width_m = 0, height_m = 0; }; ///< from its top left corner
struct Ellipse { double x_m = 0, y_m = 0, width_m = 0, height_m = 0; };   ///< about its centre; both axes whole
struct Polygon { std::vector<Point> corners; };                           ///< closed; where it crosses itself: even-odd
struct Line { std::vector<Point> points; double width_m = 0; };           ///< round ends and joins

enum class SetWord { all, minus, both };
/// Other areas joined (greatest value), the first without the others (least of its own and of what each of them
/// leaves), or what they share (least). `areas`: indices into Plan::areas, or whole_sheet.
struct AreaSet {
    SetWord word = SetWord::all;
    std::vector<int> areas;
};

using Form = std::variant<Mask, Rectangle, Ellipse, Polygon, Line, AreaSet>;

struct Area {
    std::string name;               ///< [area.NAME], or the stem of a mask file named in a step
    std::filesystem::path file;     ///< of a mask; else empty
    grid::GreyPicture mask;         ///< has the sheet's aspect; any size. Of a Mask without pixels: the whole sheet
    Form form = Mask{};
    double soft_m = 0;              ///< of a shape
};
const char* form_word(const Area&); ///< "mask", "rectangle", "ellipse", "polygon", "line", "all", "minus", "and"

} // namespace tidemark::plan
