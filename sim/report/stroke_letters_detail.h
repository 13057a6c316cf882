/// The letters of lettering_detail.h as strokes of a pen: dots that touch are joined.
#pragma once
#include "report/line_drawing.h"

#include <string>

namespace tidemark::report {

double stroke_text_width(const std::string&, double dot_mm);

/// Middles of the top left dots at (x, y); capitals are six dots high, descenders two more.
void add_text(LineDrawing&, double x, double y, const std::string&, double dot_mm, const Pen&);

} // namespace tidemark::report
