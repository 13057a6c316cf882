/// All of an area's outline that borders on one neighbour, with a profile for every millimetre. Private to the room.
#pragma once
#include "judge/boundary.h"
#include "judge/edges.h"
#include "judge/measured_detail.h"
#include "judge/neighbours_detail.h"

#include <utility>
#include <vector>

namespace tidemark::judge {

using CellAt = std::pair<int, int>;

/// About a millimetre of outline.
struct BorderPlace {
    OutlinePoint point;
    Across across;          ///< the mean over a window of outline, measured
    CellAt inside, outside; ///< the cells on either side
};
/// Unbroken: nothing else lies between its places.
struct BorderPiece {
    bool closed = false; ///< a whole outline that comes back to its beginning
    double length_mm = 0;
    std::vector<BorderPlace> places;
};
struct Border {
    int neighbour = bare_paper;
    double length_mm = 0;
    double middle_x_mm = 0, middle_y_mm = 0; ///< of the longest piece
    double longest_piece_mm = 0;
    std::vector<CellAt> inside; ///< cells along the outline, on its own side
    std::vector<BorderPiece> pieces;
};

/// By first appearance along the outline.
std::vector<Border> borders_of(const plan::Plan&,
                               const PaintedMap&,
                               int own,
                               const grid::Field<float>& lstar,
                               const sheet::Geometry&,
                               const EdgeRules&);

} // namespace tidemark::judge
