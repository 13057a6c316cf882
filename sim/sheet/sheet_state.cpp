#include "sheet/sheet_state.h"

#include <cmath>

#include "grid/within.h"
#include "sheet/relief.h"
#include "sheet/stage.h"

namespace tidemark::sheet {

double half_equilibrium_kg_m2(const materials::Paper& paper, double activity) {
    const double x = paper.gab_K * std::clamp(activity, 0.0, 1.0);
    const double kg_kg = paper.gab_m0 * paper.gab_C * x / ((1 - x) * (1 + (paper.gab_C - 1) * x));
    return 0.5 * paper.basis_kg_m2 * kg_kg;
}

double activity_of_half(const materials::Paper& paper, double half_kg_m2) {
    const double m = half_kg_m2 / (0.5 * paper.basis_kg_m2), C = paper.gab_C;
    if (m <= 0) return 0;
    // GAB solved for x = K a: m (C-1) x² + (m0 C - m (C-2)) x - m = 0
    const double B = paper.gab_m0 * C - m * (C - 2);
    const double x = (std::sqrt(B * B + 4 * m * m * (C - 1)) - B) / (2 * m * (C - 1));
    return std::clamp(x / paper.gab_K, 0.0, 1.0);
}

double relief_fill_m(const materials::Paper& paper) { return paper.held_m; }

StageRule stage_rule(const SheetState& sheet) {
    return {.wet_film_m = std::max(relief_fill_m(sheet.paper), 2e-6),
            .moist_film_m = 1e-6,
            .dry_front_kg_m2 = half_equilibrium_kg_m2(sheet.paper, sheet.still_humidity) +
                               0.02 * 0.5 * sheet.paper.basis_kg_m2};
}

namespace {

void check(const materials::Paper& p) {
    grid::within("paper.basis_kg_m2", p.basis_kg_m2, {50, 1500, "g/m²", 1e-3});
    grid::within("paper.gab_m0", p.gab_m0, {0.005, 0.2});
    grid::within("paper.gab_C", p.gab_C, {2, 1000});
    grid::within("paper.gab_K", p.gab_K, {0.3, 0.99});
}

/// Before anything is sized: a sheet without end would fill the memory first.
void check(double width_m, double height_m, double cell_m) {
    const grid::Allowed side{0.01, 10'000, "mm", 1e-3};
    grid::within("width_m", width_m, side);
    grid::within("height_m", height_m, side);
    grid::within("cell_m", cell_m, {0.01, 100, "mm", 1e-3});
    grid::within("cells of the sheet", width_m / cell_m * (height_m / cell_m), {0, 100, "million", 1e6});
}

} // namespace

SheetState SheetState::make(double width_m, double height_m, double cell_m, const materials::Paper& paper,
                            const materials::Room& room, BoardKind board,
                            const std::vector<materials::Pigment>& pigments, std::uint64_t seed) {
    check(width_m, height_m, cell_m), check(paper);
    grid::within("room.humidity", room.humidity, {0, 1});
    SheetState s;
    constexpr int tile = grid::TileSet::size;
    Geometry& g = s.geometry;
    g.cell_m = cell_m;
    g.nx = std::max(1, static_cast<int>(std::lround(width_m / cell_m)));
    g.ny = std::max(1, static_cast<int>(std::lround(height_m / cell_m)));
    g.px = (g.nx + tile - 1) / tile * tile;
    g.py = (g.ny + tile - 1) / tile * tile;
    s.paper = paper, s.room = room, s.board = board, s.still_humidity = room.humidity;
    for (auto* f : {&s.relief_m, &s.film_m, &s.film_low_m, &s.film_before_m, &s.flux_x_m2_s, &s.flux_y_m2_s, &s.drawn_m,
                    &s.gum_lower_kg_m2, &s.gum_upper_kg_m2, &s.gum_bound_kg_m2})
        f->resize(g.px, g.py);
    s.surface.resize(g.px, g.py);
    s.pass_count.resize(g.px, g.py);
    s.front_kg_m2.resize(g.px, g.py);
    s.back_kg_m2.resize(g.px, g.py);
    const double resting = half_equilibrium_kg_m2(paper, room.humidity);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) s.front_kg_m2(i, j) = s.back_kg_m2(i, j) = resting;
    s.relief_subgrid_rms_m =
        make_relief(s.relief_m, g.nx, g.ny, cell_m, paper.relief_rms_m, paper.relief_corr_m, seed);
    for (const auto& p : pigments) {
        PigmentState state{.pigment = p, .afloat_lower = {}, .afloat_upper = {}, .loose = {}, .bound = {}, .inside = {},
                           .tiles = {}};
        for (auto* f : {&state.afloat_lower, &state.afloat_upper, &state.loose, &state.bound, &state.inside})
            f->resize(g.px, g.py);
        s.pigments.push_back(std::move(state));
    }
    s.film_tiles = grid::TileSet(g.px, g.py);
    s.damp_tiles = grid::TileSet(g.px, g.py);
    return s;
}

double SheetState::pigment_kg_m2(std::size_t pigment, int i, int j) const {
    const PigmentState& p = pigments[pigment];
    double sum = 0;
    for (const auto* f : {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside}) sum += (*f)(i, j);
    for (const Pass& pass : passes) sum += pass.bound[pigment](i, j);
    return sum;
}

} // namespace tidemark::sheet
