#include "fibre/advance.h"

#include "fibre/through.h"
#include "fibre/uptake.h"
#include "grid/rows.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>

namespace tidemark::fibre {
namespace {

using sheet::SheetState;

constexpr int stretch_cells = 128;

void check(const materials::Paper& p, double dt_s) {
    grid::within("dt_s", dt_s, grid::step_of_time);
    grid::within("paper.sorptivity_front_m_s05", p.sorptivity_front_m_s05, {0, 3e-4, "m/√s"});
    grid::within("paper.through_diffusivity_m2_s", p.through_diffusivity_m2_s, {0, 1e-6, "m²/s"});
    grid::within("paper.lateral_diffusivity_m2_s", p.lateral_diffusivity_m2_s, {0, 1e-6, "m²/s"});
    grid::within("paper.caliper_m", p.caliper_m, {0.05, 3, "mm", 1e-3});
    grid::within("paper.capacity_kg_m2", p.capacity_kg_m2, {0.02, 3, "kg/m²"});
}

bool any_film(const float* film, int n) {
    int any = 0;
    for (int i = 0; i < n; ++i)
        any |= film[i] > 0;
    return any != 0;
}

/// Uptake and exchange of one row: each cell by itself.
void drink_row(SheetState& s, const UptakeStep& uptake, double share, int j, double& drawn, double& run_off) {
    alignas(64) double moved[stretch_cells];
    for (const grid::Span span : s.damp_tiles.spans(j)) {
        const int end = std::min(span.end, s.geometry.nx);
        for (int i = span.begin; i < end; i += stretch_cells) {
            const int n = std::min(stretch_cells, end - i);
            double *front = s.front_kg_m2.row(j) + i, *back = s.back_kg_m2.row(j) + i;
            float *film = s.film_m.row(j) + i, *drawn_m = s.drawn_m.row(j) + i;
            if (any_film(film, n)) {
                uptake_stretch(n, uptake, s.surface.row(j) + i, film, s.film_low_m.row(j) + i, front, back, drawn_m,
                               moved);
                drawn += grid::lane_sum(moved, n);
            } else {
                std::fill_n(drawn_m, n, 0.0f);
            }
            through_stretch(n, share, uptake.capacity_kg_m2, front, back, moved);
            run_off += grid::lane_sum(moved, n);
        }
    }
}

} // namespace

FibreMoved advance(SheetState& s, FibreWorkspace& work, double dt_s) {
    check(s.paper, dt_s);
    const double S = s.paper.sorptivity_front_m_s05;
    const UptakeStep uptake{S * S * dt_s, sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity),
                            sheet::half_capacity_kg_m2(s.paper)};
    const double share = -0.5 * std::expm1(-exchange_rate_1_s(s.paper) * dt_s);
    work.drawn_row.resize(s.geometry.ny), work.run_off_row.resize(s.geometry.ny);
    grid::for_rows(s.geometry.ny, s.damp_tiles.cells(), [&](int j) {
        double drawn = 0, run_off = 0;
        drink_row(s, uptake, share, j, drawn, run_off);
        work.drawn_row[j] = drawn, work.run_off_row[j] = run_off;
    });
    creep(s, work.creep, s.front_kg_m2, dt_s);
    creep(s, work.creep, s.back_kg_m2, dt_s);
    FibreMoved moved;
    for (int j = 0; j < s.geometry.ny; ++j)
        moved.film_to_front_kg += work.drawn_row[j], moved.run_off_kg += work.run_off_row[j];
    moved.film_to_front_kg *= s.geometry.cell_area_m2(), moved.run_off_kg *= s.geometry.cell_area_m2();
    return moved;
}

} // namespace tidemark::fibre
