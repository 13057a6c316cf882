#include "report/transfer.h"

#include "report/stroke_letters_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::report {

namespace {

constexpr Pen outline_pen{0.3, 0.13, 0.13, 0.15}, square_pen{0.15, 0.35, 0.6, 0.85}, label_pen{0.25, 0.35, 0.6, 0.85},
    eye_pen{0.25, 0.8, 0.2, 0.1};

/// Letters large enough to be read at arm's length on a large sheet, and not in the way on a small one.
double dot_mm(const TransferSheet& sheet) {
    return std::clamp(std::max(sheet.width_mm, sheet.height_mm) / 900, 0.25, 0.8);
}

void add_squares(LineDrawing& drawing, const TransferSheet& sheet) {
    const double w = sheet.width_mm, h = sheet.height_mm, side = sheet.square_mm, dot = dot_mm(sheet);
    const auto line = [&](double x0, double y0, double x1, double y1) {
        drawing.strokes.push_back({{{x0, y0}, {x1, y1}}, false, square_pen});
    };
    const int columns = squares_along(w, side), rows = squares_along(h, side);
    for (int k = 1; k < columns; ++k) line(k * side, 0, k * side, h);
    for (int k = 1; k < rows; ++k) line(0, k * side, w, k * side);
    drawing.strokes.push_back({{{0, 0}, {w, 0}, {w, h}, {0, h}}, true, square_pen});

    const double margin = 3 * dot;
    for (int k = 0; k < columns; ++k) {
        const std::string name(1, static_cast<char>('A' + k));
        const double middle = (k * side + std::min(w, (k + 1) * side)) / 2;
        add_text(drawing, middle - 2 * dot, margin, name, dot, label_pen);
    }
    for (int k = 0; k < rows; ++k) {
        const double middle = (k * side + std::min(h, (k + 1) * side)) / 2;
        add_text(drawing, margin, middle - 3 * dot, std::to_string(k + 1), dot, label_pen);
    }
}

void add_eye_line(LineDrawing& drawing, const TransferSheet& sheet) {
    const double y = *sheet.eye_line_mm, dot = dot_mm(sheet), dash = 12 * dot, gap = 5 * dot;
    for (double x = 0; x < sheet.width_mm; x += dash + gap)
        drawing.strokes.push_back({{{x, y}, {std::min(x + dash, sheet.width_mm), y}}, false, eye_pen});
    const std::string name = "eye line";
    const double above = y - 11 * dot, under = y + 3 * dot;
    add_text(drawing, sheet.width_mm - stroke_text_width(name, dot) - 3 * dot, above > 0 ? above : under, name, dot,
             eye_pen);
}

/// A tick at the head's height, its number, and the way to the eye line; on the line a cross.
void add_heads(LineDrawing& drawing, const TransferSheet& sheet) {
    const std::vector<HeadCheck> checks = check_heads(sheet.heads, *sheet.eye_line_mm);
    const double dot = dot_mm(sheet), half = 5 * dot;
    for (std::size_t k = 0; k < checks.size(); ++k) {
        const auto [x, y] = sheet.heads[k];
        drawing.strokes.push_back({{{x - half, y}, {x + half, y}}, false, eye_pen});
        if (checks[k].on_line)
            drawing.strokes.push_back({{{x, y - 2 * dot}, {x, y + 2 * dot}}, false, eye_pen});
        else
            drawing.strokes.push_back({{{x, y}, {x, *sheet.eye_line_mm}}, false, eye_pen});
        // On the side away from the eye line; on the line, below it.
        const bool above = !checks[k].on_line && checks[k].below_mm < 0 && y > 9 * dot;
        const std::string number = std::to_string(k + 1);
        add_text(drawing, x - stroke_text_width(number, dot) / 2, above ? y - 8 * dot : y + 3 * dot, number, dot,
                 eye_pen);
    }
}

} // namespace

LineDrawing transfer_drawing(const TransferSheet& sheet) {
    LineDrawing drawing{sheet.width_mm, sheet.height_mm, sheet.title, {}};
    add_squares(drawing, sheet);
    for (const reference::Outline& line : sheet.outlines)
        drawing.strokes.push_back({line.points, line.ring, outline_pen});
    if (sheet.eye_line_mm) {
        add_eye_line(drawing, sheet);
        add_heads(drawing, sheet);
    }
    return drawing;
}

double usual_square_mm(double width_mm, double height_mm) {
    return std::max(smallest_square_mm, 5 * std::round(std::max(width_mm, height_mm) / 4 / 5));
}

int squares_along(double side_mm, double square_mm) {
    return static_cast<int>(std::ceil(side_mm / square_mm - 1e-9));
}

std::vector<HeadCheck> check_heads(std::span<const reference::PointMm> heads, double eye_line_mm) {
    std::vector<HeadCheck> checks;
    for (const reference::PointMm& head : heads) {
        const double below = head.y - eye_line_mm;
        checks.push_back({below, std::fabs(below) <= head_tolerance_mm + 1e-9});
    }
    return checks;
}

} // namespace tidemark::report
