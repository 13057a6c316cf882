/// The edges of a finished run as lines to draw and rows to click, those that are not as wanted first.
#pragma once
#include "viewer/studio/run.h"

#include <string>
#include <vector>

namespace tidemark::viewer {

struct EdgeLine {
    std::string between;       ///< "far trees | sky"
    std::string word;          ///< hard, firm, soft or lost
    std::string wanted;        ///< empty: the plan does not say
    bool tidemark = false;
    bool as_wanted = true;
    bool draft = false;        ///< from coarse cells
    double width_mm = 0;       ///< NaN: no contrast to measure
    double length_mm = 0;
    std::string why;           ///< for a painter; may be empty
    std::vector<judge::Place_mm> line; ///< along the outline, a millimetre apart
    judge::Place_mm middle;
    int step = 0, edge = 0, stretch = 0;   ///< of the plan; indices into Verdicts
};
std::vector<EdgeLine> edge_lines(const Outcome&);
std::size_t edges_asked(const std::vector<EdgeLine>&); ///< how many, at the beginning, the plan wants something of
std::string edges_sentence(const Outcome&); ///< "Edges: 11 of 15 as wanted"
std::string edges_caution(const Outcome&);  ///< of coarse cells; empty: of fine ones
std::string place_words(double x_mm, double y_mm, double width_mm, double height_mm); ///< "upper left", by thirds of the sheet

} // namespace tidemark::viewer
