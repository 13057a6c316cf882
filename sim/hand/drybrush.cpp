#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <vector>

namespace tidemark::hand {

namespace {

/// The relief that `share` of the area's cells stand above.
float height_of_the_highest(const sheet::SheetState& s, const grid::Field<float>& cover, double share) {
    std::vector<float> heights;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            if (cover(i, j) >= plan::half_covered)
                heights.push_back(s.relief_m(i, j));
    if (heights.empty())
        return 0;
    const double below = (1 - std::clamp(share, 0.0, 1.0)) * static_cast<double>(heights.size());
    const std::size_t k = std::min(static_cast<std::size_t>(below), heights.size() - 1);
    std::nth_element(heights.begin(), heights.begin() + static_cast<std::ptrdiff_t>(k), heights.end());
    return heights[k];
}

} // namespace

Work drybrush(const plan::Plan& plan, const plan::Drybrush& act, const sheet::SheetState& s) {
    const sheet::Geometry& g = s.geometry;
    const grid::Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    Work w = along(cells_in_rows(cover, g.cell_m), cover, act.film_m, act.pace_m2_s, g.cell_area_m2());
    const float least = height_of_the_highest(s, cover, act.share);
    std::erase_if(w.touches, [&](const Touch& t) { return s.relief_m(t.i, t.j) < least; });
    for (Touch& t : w.touches)
        t.does = Does::lay_evenly;
    w.mix = act.mix;
    return w;
}

} // namespace tidemark::hand
