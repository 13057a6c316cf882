/// From distances to branches. Private to the room.
#pragma once
#include "grid/geodesic.h"
#include "reference/arms.h"

#include <span>
#include <vector>

namespace tidemark::reference {

/// Parts of bands, or what they were joined to. Numbers rise with the distance of an arm's first cell.
struct Arms {
    std::vector<Arm> list;
    std::vector<int> first_band, last_band; ///< one an arm
    std::vector<int> of; ///< one a cell, row by row; -1: none
};

/// Every part of every band, joined along sides and corners: band k holds distances from k to k + 1 times `band` (2 cells
/// or more). `order`: all cells, nearest first; `area`: one a cell of the field.
Arms parts_of_bands(const grid::Geodesic& inside, std::span<const grid::Cell> order, int width, int height,
                    const std::vector<double>& area, double band);

/// What goes on without a split or a join is one arm. Arms that come from one other, and are smaller or of fewer bands
/// than that, are taken along with it, the smallest first.
Arms joined_up(const Arms&, double smallest, int fewest_bands);

} // namespace tidemark::reference
