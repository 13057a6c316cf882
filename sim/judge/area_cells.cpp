#include "judge/area_cells.h"

namespace tidemark::judge {

namespace {

bool is_whole(const plan::Plan& p, int area) {
    return area < 0 || area >= static_cast<int>(p.areas.size()) || p.areas[area].mask.value.empty();
}

} // namespace

grid::Field<float> area_on_grid(const plan::Plan& p, int area, const sheet::Geometry& g) {
    grid::Field<float> out(g.nx, g.ny, 1.0f);
    if (is_whole(p, area)) return out;
    const grid::GreyPicture small = grid::resized(p.areas[area].mask, g.nx, g.ny);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) out(i, j) = small.at(i, j);
    return out;
}

std::string area_name(const plan::Plan& p, int area) {
    if (area < 0 || area >= static_cast<int>(p.areas.size())) return "whole sheet";
    return p.areas[area].name;
}

} // namespace tidemark::judge
