#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>

namespace tidemark::hand {

Work soften(const plan::Plan& plan, const plan::Soften& act, const sheet::Geometry& g) {
    const grid::Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    const grid::Field<float> other = act.along ? plan::coverage(plan, *act.along, g.nx, g.ny) : grid::Field<float>();
    const std::vector<BoundaryPoint> line = boundary_of(cover, g.cell_m, act.along ? &other : nullptr, act.width_m);
    // A cell of the band is wetted when the brush is nearest.
    const double half_m = std::max(0.5 * act.width_m, 0.75 * g.cell_m);
    grid::Field<double> distance2_m2(g.nx, g.ny, 1e30), at_m(g.nx, g.ny);
    const int reach = static_cast<int>(std::ceil(half_m / g.cell_m));
    for (const BoundaryPoint& p : line) {
        const int i0 = static_cast<int>(p.x_m / g.cell_m), j0 = static_cast<int>(p.y_m / g.cell_m);
        for (int j = std::max(0, j0 - reach); j <= std::min(g.ny - 1, j0 + reach); ++j)
            for (int i = std::max(0, i0 - reach); i <= std::min(g.nx - 1, i0 + reach); ++i) {
                const double dx = (i + 0.5) * g.cell_m - p.x_m, dy = (j + 0.5) * g.cell_m - p.y_m, d2 = dx * dx + dy * dy;
                if (d2 <= half_m * half_m && d2 < distance2_m2(i, j))
                    distance2_m2(i, j) = d2, at_m(i, j) = p.at_m;
            }
    }
    Work w;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (distance2_m2(i, j) < 1e29)
                w.touches.push_back({static_cast<float>(at_m(i, j) / act.speed_m_s),
                                     static_cast<float>(act.water_kg_m2 / 1000.0), i, j, 1, Does::soften});
    std::stable_sort(w.touches.begin(), w.touches.end(), [](const Touch& a, const Touch& b) { return a.at_s < b.at_s; });
    w.end_s = line.empty() ? 0 : line.back().at_m / act.speed_m_s;
    return w;
}

} // namespace tidemark::hand
