/// Crowns of trees: main masses given by hand, filled with sprays of leaves that overlap, nearest first.
#pragma once
#include "marks.h"

#include <cstddef>

namespace orchard {

struct Spray {
    double x = 0, y = 0, wide = 1, high = 1; ///< mm; half axes
    double light = 0;                        ///< -1 ... 1: its place in the light and shade of its mass
    double own = 0.5;                        ///< 0 ... 1: a throw
};

struct Crown {
    std::vector<Spray> sprays;
    std::vector<std::vector<int>> cells; ///< sprays that may reach a cell of the sheet, nearest first
    /// Sprays that may reach a place; none: nullptr.
    const std::vector<int>* near(Point) const;
};

const Crown& near_crown();
const Crown& middle_crown();
const Crown& right_crown();

} // namespace orchard
