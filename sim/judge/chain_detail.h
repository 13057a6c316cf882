/// Marching squares: the lines where a field crosses one half, as chains of points in cell coordinates (cell centres
/// at whole numbers). A square with two opposite corners inside is cut by the mean of its four corners.
#pragma once
#include "grid/field.h"

#include <vector>

namespace tidemark::judge {

struct ChainPoint {
    double x = 0, y = 0;
};
struct Chain {
    std::vector<ChainPoint> points;
    bool closed = false;
};
std::vector<Chain> half_level_chains(const grid::Field<float>&);

} // namespace tidemark::judge
