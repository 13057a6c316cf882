#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>

namespace tidemark::hand {

namespace {

using grid::Field;

constexpr double bead_travel_m = 10e-3; // how far from the last edge a bead is picked up (common practice)

std::vector<Cell> cells_of(const plan::Wash& act,
                           const Field<float>& cover,
                           const sheet::Geometry& g,
                           double downhill_rad) {
    switch (act.travel) {
    case plan::Travel::downhill: return cells_downhill(cover, downhill_rad);
    case plan::Travel::order: return cells_in_order(cover, g.cell_m, act.order);
    case plan::Travel::from_point: return cells_from(cover, g.cell_m, act.from_x_m, act.from_y_m);
    default: return cells_in_rows(cover, g.cell_m);
    }
}

/// Time runs along the strokes, also where they cross what is painted.
Work along_strokes(const plan::Wash& act, const Field<float>& cover, const sheet::Geometry& g) {
    const double width_m = act.mark_m(), speed_m_s = act.pace_m2_s / width_m;
    Work w;
    for (const Passed& p : cells_along(cover, g.cell_m, act.strokes, 0.5 * width_m)) {
        const float share = cover(p.cell.i, p.cell.j);
        w.touches.push_back({static_cast<float>(p.at_m / speed_m_s), static_cast<float>(act.film_m * share), p.cell.i,
                             p.cell.j, share});
    }
    w.end_s = length_m(act.strokes) / speed_m_s;
    return w;
}

/// How wide the edge is that the hand leads along: the area's mean width across the way of rows or of downhill, else
/// the mark of the brush.
double front_m(const plan::Wash& act, const Work& w, const sheet::Geometry& g, double downhill_rad) {
    const bool rows = act.travel == plan::Travel::rows;
    if ((!rows && act.travel != plan::Travel::downhill) || w.touches.empty())
        return act.mark_m();
    const double x = rows ? 0 : std::cos(downhill_rad), y = rows ? 1 : std::sin(downhill_rad);
    double least = 1e30, most = -1e30;
    for (const Touch& t : w.touches) {
        least = std::min(least, t.i * x + t.j * y);
        most = std::max(most, t.i * x + t.j * y);
    }
    return w.end_s * act.pace_m2_s / ((most - least + 1) * g.cell_m);
}

/// At the end, along the edge that was painted last, down to the film that was laid.
void pick_up_bead(const plan::Wash& act, Work& w, const sheet::Geometry& g, double downhill_rad) {
    const double from_s = w.end_s - bead_travel_m * front_m(act, w, g, downhill_rad) / act.pace_m2_s;
    const std::size_t laid = w.touches.size();
    for (std::size_t k = 0; k < laid; ++k) {
        Touch t = w.touches[k];
        if (t.at_s < from_s)
            continue;
        t.at_s = static_cast<float>(w.end_s), t.does = Does::take_down;
        w.touches.push_back(t);
    }
}

} // namespace

Work wash(const plan::Plan& plan, const plan::Wash& act, const sheet::Geometry& g, double downhill_rad) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    Work w = act.travel == plan::Travel::strokes
                 ? along_strokes(act, cover, g)
                 : along(cells_of(act, cover, g, downhill_rad), cover, act.film_m, act.pace_m2_s, g.cell_area_m2());
    w.mix = act.mix;
    w.joins.resize(g.nx, g.ny);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            w.joins(i, j) = cover(i, j) >= plan::half_covered;
    if (act.bead == plan::Bead::picked_up)
        pick_up_bead(act, w, g, downhill_rad);
    if (act.brush)
        w.load_m3 = w.left_m3 = act.brush->release_m3, w.refill_s = act.refill_s;
    return w;
}

} // namespace tidemark::hand
