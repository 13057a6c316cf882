#include "plan/coverage.h"

namespace tidemark::plan {

grid::Field<float> coverage(const Plan& plan, int area, int nx, int ny) {
    grid::Field<float> out(nx, ny, 1.0f);
    if (area < 0 || plan.areas[area].mask.value.empty()) return out;
    const grid::GreyPicture small = grid::resized(plan.areas[area].mask, nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) out(i, j) = small.at(i, j);
    return out;
}

std::string area_name(const Plan& plan, int area) { return area < 0 ? "whole sheet" : plan.areas[area].name; }

} // namespace tidemark::plan
