/// The outlines of masses as lines a hand could draw: for tracing onto paper.
///
/// Borders between masses run along the sides of pixels. They are cut where three or more masses meet and where they
/// reach the picture's edge, which is no border itself; what never meets another is a ring. Each stretch is traced
/// once, through the middles of the pixel sides, so that a slope is no staircase; then it is smoothed as by a Gaussian
/// along the line, and points are left out that lie within the tolerance of the line without them. Ends stay where
/// they are, so that lines which met still meet. The same masses give the same lines.
///
/// Range   smooth_mm 0 to 20, tolerance_mm 0 to 20; 0: none, no point left out.
/// Source  Douglas & Peucker (1973), Cartographica 10(2):112 (leaving points out).
#pragma once
#include "reference/masses.h"

#include <vector>

namespace tidemark::reference {

struct PointMm {
    double x = 0, y = 0; ///< from the top left corner of the sheet
    bool operator==(const PointMm&) const = default;
};

struct Outline {
    std::vector<PointMm> points;
    bool ring = false; ///< closed: the first point follows the last
};

struct Tracing {
    double smooth_mm = 0.6;     ///< standard deviation along the line; a corner is rounded by about as much
    double tolerance_mm = 0.03; ///< a tenth of a pencil's line: no corner is seen where there was a curve
};

/// The picture of the masses fills a sheet of that size. Lines first, rings after them, each from the top left.
std::vector<Outline> outlines(const Masses&, double width_mm, double height_mm, const Tracing& = {});

/// The line with as few of its points as its tolerance allows; its ends stay, of a ring the first point and the one
/// furthest from it.
Outline simplified(const Outline&, double tolerance_mm);

} // namespace tidemark::reference
