/// All of an area's outline that borders on one neighbour, as averaged profiles, and their medians.
#pragma once
#include "judge/edges.h"
#include "judge/neighbours_detail.h"

#include <utility>
#include <vector>

namespace tidemark::judge {

struct Stretch {
    int neighbour = bare_paper;
    double length_mm = 0;
    double middle_x_mm = 0, middle_y_mm = 0; ///< of the longest unbroken piece
    double longest_piece_mm = 0;
    std::vector<std::pair<int, int>> inside; ///< cells along the outline, on its own side
    std::vector<Profile> profiles; ///< one a millimetre of outline, each the mean over a window
};

/// By first appearance along the outline.
std::vector<Stretch> stretches_of(const plan::Plan&,
                                  const PaintedMap&,
                                  int own,
                                  const grid::Field<float>& lstar,
                                  const sheet::Geometry&,
                                  const EdgeRules&);

struct StretchVerdict {
    double width_mm = 0, delta_L = 0, rim_L = 0, shift_mm = 0, inside_L = 0, outside_L = 0;
};
StretchVerdict measure_stretch(const Stretch&, const EdgeRules&);

} // namespace tidemark::judge
