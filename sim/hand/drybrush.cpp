// What a nearly dry brush touches.
//
// Its hairs rest on the highest parts of the felt and bridge the hollows; paint comes off where the paper lies no
// deeper below the hairs than their coat of it, which is as deep as what it leaves. So the paper decides how much stays
// bare, unless the plan says how much the brush is to touch. The form is ours; that hairs rest one rms height above the
// mean plane (normal heights: on the highest sixth) is from memory.
#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace tidemark::hand {

namespace {

constexpr float least_touched = 0.02f; // of a cell

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

/// Share of a cell that stands above `least_m`. What the grid does not carry of the felt is spread evenly about the
/// cell's height.
float share_above(const sheet::SheetState& s, int i, int j, double least_m) {
    const double above = s.relief_m(i, j) - least_m, half = std::sqrt(3.0) * s.relief_subgrid_rms_m;
    return half > 0 ? static_cast<float>(std::clamp(0.5 + 0.5 * above / half, 0.0, 1.0)) : above >= 0 ? 1.0f : 0.0f;
}

} // namespace

Work drybrush(const plan::Plan& plan, const plan::Drybrush& act, const sheet::SheetState& s) {
    const sheet::Geometry& g = s.geometry;
    const grid::Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    Work w = along(cells_in_rows(cover, g.cell_m), cover, act.film_m, act.pace_m2_s, g.cell_area_m2());
    if (act.share) {
        const float least = height_of_the_highest(s, cover, *act.share);
        std::erase_if(w.touches, [&](const Touch& t) { return s.relief_m(t.i, t.j) < least; });
    } else {
        const double least = s.paper.relief_rms_m - act.film_m;
        for (Touch& t : w.touches) {
            const float touched = share_above(s, t.i, t.j, least);
            t.film_m *= touched, t.share *= touched;
        }
        std::erase_if(w.touches, [](const Touch& t) { return t.share < least_touched; });
    }
    for (Touch& t : w.touches)
        t.does = Does::lay_evenly;
    w.mix = act.mix;
    return w;
}

} // namespace tidemark::hand
