/// What a painter traces onto the paper: the masses in outline, squares to carry them over, the eye line, heads.
///
/// The page is the sheet, to scale. Nothing on it is a tone: outlines are a thin dark line, squares thinner and blue,
/// eye line and heads red. Squares are counted from the top left, A, B, C along the top, 1, 2, 3 down the left; the
/// last ones may be cut by the sheet's edge.
#pragma once
#include "report/line_drawing.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace tidemark::report {

struct TransferSheet {
    double width_mm = 0, height_mm = 0;
    std::string title;
    std::vector<reference::Outline> outlines;
    double square_mm = 0;
    std::optional<double> eye_line_mm; ///< from the top
    std::vector<reference::PointMm> heads; ///< the tops, marked by the painter
};

LineDrawing transfer_drawing(const TransferSheet&);

/// A quarter of the longer side, to whole 5 mm: four squares along it or nearly.
double usual_square_mm(double width_mm, double height_mm);
constexpr double smallest_square_mm = 5;
constexpr int most_columns = 26; ///< letters A to Z

int squares_along(double side_mm, double square_mm); ///< whole ones and the cut one

/// How far a head lies under the eye line, negative: over it. People who stand on level ground, seen by one who stands
/// there too, have their heads on the eye line, near or far: it cuts all at the height of the eye. (Common practice.)
struct HeadCheck {
    double below_mm = 0;
    bool on_line = false; ///< within head_tolerance_mm
};
constexpr double head_tolerance_mm = 1;
std::vector<HeadCheck> check_heads(std::span<const reference::PointMm> heads, double eye_line_mm);

} // namespace tidemark::report
