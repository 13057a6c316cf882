/// A drawing of lines alone, in mm, written as SVG, PDF or PNG by cairo.
///
/// Same drawing, same bytes: no date and no name of a machine is written. Lines have round ends and joins. SVG and
/// PDF are exactly the page's size; of a PNG the last pixel may be cut, the scale is true: 300 pixels an inch, said in
/// its pHYs chunk. Text is strokes too, so that no font is needed. Coordinates are kept to 1/256 of a mm (SVG), of a
/// point (PDF), of a pixel (PNG). Errors: InternalError when cairo can't; a PNG is at most 32767 pixels each way.
#pragma once
#include "reference/outline.h"

#include <cstdint>
#include <string>
#include <vector>

namespace tidemark::report {

struct Pen {
    double width_mm = 0.25;
    double r = 0, g = 0, b = 0; ///< sRGB, 0 ... 1
    bool operator==(const Pen&) const = default;
};

struct Stroke {
    std::vector<reference::PointMm> points; ///< one point is a dot
    bool ring = false;
    Pen pen;
};

struct LineDrawing {
    double width_mm = 0, height_mm = 0;
    std::string title; ///< of a PDF, cleaned (grid/clean_text.h)
    std::vector<Stroke> strokes; ///< later ones lie over earlier ones
};

constexpr double print_pixels_per_mm = 300 / 25.4;
/// Pixels of a length in a PNG.
int print_pixels(double mm);

std::vector<std::uint8_t> svg_bytes(const LineDrawing&);
std::vector<std::uint8_t> pdf_bytes(const LineDrawing&);
std::vector<std::uint8_t> png_bytes(const LineDrawing&);

} // namespace tidemark::report
