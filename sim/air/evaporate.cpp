#include "air/evaporate.h"

#include "air/drying_row_detail.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidemark::air {
namespace {

using sheet::BoardKind;
using sheet::SheetState;

bool same_air(const materials::Room& a, const materials::Room& b) {
    return a.temperature_K == b.temperature_K && a.humidity == b.humidity && a.air_m_s == b.air_m_s &&
           a.sun_W_m2 == b.sun_W_m2 && a.longwave_W_m2 == b.longwave_W_m2 && a.turbulence == b.turbulence;
}

void make_ready(const SheetState& s, AirWorkspace& work) {
    if (!work.ready || !same_air(work.room, s.room)) {
        work.params = make_params(s);
        work.room = s.room;
    }
    const bool fits = work.sideways.factor.nx() == s.geometry.px && work.sideways.factor.ny() == s.geometry.py;
    if (!work.ready || !fits)
        prepare(work.sideways, s.geometry, work.params.wet.layer_m);
    work.ready = true;
}

/// Back half into the board: free water decays by `share` of itself. Returns kg/m² summed over the stretch.
double into_board(int n, double saturated, double share, double* back, double* loss) {
    for (int i = 0; i < n; ++i) {
        const double next = back[i] - share * std::max(back[i] - saturated, 0.0);
        loss[i] = back[i] - next;
        back[i] = next;
    }
    return grid::lane_sum(loss, n);
}

bool any_above(const float* x, int n) {
    int any = 0;
    for (int i = 0; i < n; ++i)
        any |= x[i] > 0;
    return any != 0;
}

void shut_reserved(const std::uint8_t* surface, float* left_s, int n) {
    for (int i = 0; i < n; ++i)
        left_s[i] = surface[i] == static_cast<std::uint8_t>(sheet::Surface::reserved) ? 0.0f : left_s[i];
}

struct RowSums {
    double air = 0, board = 0;
};

/// One stretch of a row, on scratch that stays in the nearest cache.
RowSums dry_stretch(
    SheetState& s, const SidewaysVapour& sideways, const CurveStep& step, double board_share, int j, int i, int n) {
    alignas(64) float left_s[stretch_cells] = {};
    alignas(64) double loss[stretch_cells];
    const float* factor = sideways.factor.row(j) + i;
    double *front = s.front_kg_m2.row(j) + i, *back = s.back_kg_m2.row(j) + i;
    RowSums sums;
    if (any_above(s.film_m.row(j) + i, n)) {
        film_stretch(n, step, factor, s.film_m.row(j) + i, s.film_low_m.row(j) + i, front, left_s, loss);
        sums.air += grid::lane_sum(loss, n);
    } else {
        std::fill_n(left_s, n, step.dt_s);
    }
    shut_reserved(s.surface.row(j) + i, left_s, n);
    if (any_above(left_s, n)) {
        fibre_stretch(n, step, factor, left_s, front, loss);
        sums.air += grid::lane_sum(loss, n);
    }
    if (s.board == BoardKind::open) {
        alignas(64) float even[stretch_cells] = {}; // the air below sees no pattern
        std::fill(even, even + n, 1.0f);
        std::fill(left_s, left_s + n, step.dt_s);
        fibre_stretch(n, step, even, left_s, back, loss);
        sums.air += grid::lane_sum(loss, n);
    } else if (s.board == BoardKind::absorbent) {
        sums.board += into_board(n, step.saturated_kg_m2, board_share, back, loss);
    }
    return sums;
}

} // namespace

/// Mean chord of the sheet (area π / perimeter): the wind has no known direction. A small sheet lies on a board or table
/// of about 0.3 m, over which the air has already slowed.
double plate_length_m(const SheetState& s) {
    const double width = s.geometry.nx * s.geometry.cell_m, height = s.geometry.ny * s.geometry.cell_m;
    return std::max(0.3, std::numbers::pi * width * height / (2 * (width + height)));
}

AirParams make_params(const SheetState& s) {
    AirParams p;
    p.plate_m = plate_length_m(s);
    PlateSurface surface;
    surface.faces = s.board == BoardKind::open ? 2 : 1;
    p.wet = plate_evaporation(s.room, p.plate_m, surface);
    p.curve = make_drying_curve(s.paper, s.room, p.plate_m, surface);
    p.wet_front_kg_m2 = sheet::half_equilibrium_kg_m2(s.paper, std::max(0.9, 0.5 * (1 + s.room.humidity)));
    return p;
}

AirMoved advance(SheetState& s, AirWorkspace& work, double dt_s) {
    grid::within("dt_s", dt_s, grid::step_of_time);
    grid::within("board_time_s", work.params.board_time_s, {1, 1e6, "s"});
    make_ready(s, work);
    const DryingCurve& c = work.params.curve;
    const CurveStep step{c.equilibrium_kg_m2, static_cast<float>(c.saturated_kg_m2),
                         c.wet_kg_m2_s,       c.nodes_per_kg_m2,
                         c.k_1_s.data(),      static_cast<float>(dt_s)};
    const double board_share = -std::expm1(-dt_s / work.params.board_time_s);
    const sheet::Geometry& g = s.geometry;
    work.board_row.resize(g.ny), work.air_row.resize(g.ny);
    grid::for_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        RowSums row;
        for (const grid::Span span : s.damp_tiles.spans(j))
            for (int i = span.begin; i < std::min(span.end, g.nx); i += stretch_cells) {
                const int n = std::min({stretch_cells, span.end - i, g.nx - i});
                const RowSums part = dry_stretch(s, work.sideways, step, board_share, j, i, n);
                row.air += part.air, row.board += part.board;
            }
        work.air_row[j] = row.air, work.board_row[j] = row.board;
    });
    AirMoved moved;
    for (int j = 0; j < g.ny; ++j)
        moved.evaporated_kg += work.air_row[j], moved.to_board_kg += work.board_row[j];
    moved.evaporated_kg *= g.cell_area_m2(), moved.to_board_kg *= g.cell_area_m2();
    s.board_water_kg += moved.to_board_kg;
    return moved;
}

void update_sideways(const SheetState& s, AirWorkspace& work) {
    make_ready(s, work);
    if (work.sideways.layer_m != work.params.wet.layer_m)
        prepare(work.sideways, s.geometry, work.params.wet.layer_m);
    update(work.sideways, s, work.params.wet_front_kg_m2);
}

double changed_share(const SheetState& s, AirWorkspace& work) {
    make_ready(s, work);
    return changed_share(work.sideways, s, work.params.wet_front_kg_m2);
}

} // namespace tidemark::air
