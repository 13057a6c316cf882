/// The width of edges against what was varied, as a drawing of lines that can be read without colour.
///
/// Across: the first thing that was varied, minutes for times, its own unit for numbers, one place each for words. Up: the
/// width in mm, by its logarithm, 0.3 to 30, with the limits of hard, firm, soft and lost; the band that is wanted is grey.
/// What lies beyond is drawn at the border, an edge whose two sides are alike in a lane above it: the eye passes over
/// it, whatever its width. Lines differ in dashes and marks. With two things varied there is a line for each value of the
/// second, of the first edge that is shown; else a line for each edge, six at most.
#pragma once
#include "report/asked.h"
#include "report/line_drawing.h"

namespace tidemark::report {

struct PlotPoint {
    double x = 0, width_mm = 0; ///< NaN: the sides are alike
};
struct PlotLine {
    std::string label;
    std::vector<PlotPoint> points;
};
struct EdgePlot {
    std::string title, across, wanted; ///< wanted: a word, or empty
    std::vector<std::pair<double, std::string>> ticks;
    std::vector<PlotLine> lines;
};

/// `sheets` as planned (no day), in the order of their values.
EdgePlot edge_plot(const plan::Plan&, const Question&, const std::vector<Asked>& sheets);

constexpr double plot_width_mm = 190, plot_height_mm = 125;
LineDrawing edge_plot_drawing(const EdgePlot&);

} // namespace tidemark::report
