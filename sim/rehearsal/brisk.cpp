#include "rehearsal/brisk.h"

#include "grid/largest.h"
#include "grid/rows.h"
#include "pigment/rim.h"
#include "pigment/transport.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace tidemark::rehearsal {
namespace {

constexpr int size = grid::TileSet::size;

inline float positive(float x) { return x > 0 ? x : 0.0f; }

/// The fastest wave of a row, m/s: 3 |q| / (h + 5 µm) of what leaves a cell, as StepResult::speed_m_s.
TIDEMARK_CLONES float wave_row(int n, const float* h, const float* qx, const float* qy, const float* qy_up) {
    std::int32_t fastest = 0; // as ordered bits: a float maximum would not be vectorised
#pragma omp simd reduction(max : fastest)
    for (int i = 0; i < n; ++i) {
        const float x = positive(qx[i] > -qx[i - 1] ? qx[i] : -qx[i - 1]);
        const float y = positive(qy[i] > -qy_up[i] ? qy[i] : -qy_up[i]);
        const std::int32_t leaves = grid::ordered_bits((x > y ? x : y) / (h[i] + 5e-6f));
        fastest = fastest > leaves ? fastest : leaves;
    }
    return 3.0f * std::bit_cast<float>(fastest);
}

/// By tile; 0 where it sleeps.
std::vector<float> waves(const sheet::SheetState& s, const grid::Field<float>& depth) {
    const auto& tiles = s.film_tiles;
    std::vector<float> fastest(static_cast<std::size_t>(tiles.tiles_x()) * tiles.tiles_y(), 0.0f);
    grid::for_rows(tiles.tiles_y(), tiles.cells(), [&](int tj) {
        for (int ti = 0; ti < tiles.tiles_x(); ++ti)
            if (tiles.awake(ti, tj))
                for (int j = tj * size; j < (tj + 1) * size; ++j) {
                    float& tile = fastest[static_cast<std::size_t>(tj) * tiles.tiles_x() + ti];
                    const int i = ti * size;
                    tile = std::max(tile, wave_row(size, depth.row(j) + i, s.flux_x_m2_s.row(j) + i,
                                                   s.flux_y_m2_s.row(j) + i, s.flux_y_m2_s.row(j - 1) + i));
                }
    });
    return fastest;
}

/// Sets a tile and those around it that are awake.
void add_around(const grid::TileSet& awake, int ti, int tj, grid::TileSet& to) {
    for (int b = std::max(0, tj - 1); b <= std::min(awake.tiles_y() - 1, tj + 1); ++b)
        for (int a = std::max(0, ti - 1); a <= std::min(awake.tiles_x() - 1, ti + 1); ++a)
            if (awake.awake(a, b))
                to.set(a, b, true);
}

} // namespace

Parts find_parts(const sheet::SheetState& s, const Outlook& now) {
    Parts best;
    const auto& tiles = s.film_tiles;
    const double whole = static_cast<double>(tiles.cells()), dx = s.geometry.cell_m;
    const double fine_s = now.wave_m_s > 0 ? std::min(now.fine_s, now.cells_a_step * dx / now.wave_m_s) : now.fine_s;
    double least = parts_pay_from * whole / fine_s; // cells a second
    if (now.longest_s < 1.5 * fine_s)
        return best;
    const std::vector<float> fastest = waves(s, s.film_m);
    const double speed = std::max<double>(now.wave_m_s, *std::max_element(fastest.begin(), fastest.end()));
    for (const double part_s : {0.125, 0.25, 0.5, 0.75, 1.0, 1.5, longest_part_s}) {
        const double step_s = std::min(part_s, now.longest_s), may = now.cells_a_step * dx / step_s;
        if (speed * step_s > most_cells * dx)
            break;
        if (step_s < 1.5 * fine_s)
            continue;
        grid::TileSet brisk(tiles.nx(), tiles.ny()), core = brisk;
        bool front_near = false;
        for (int tj = 0; tj < tiles.tiles_y(); ++tj)
            for (int ti = 0; ti < tiles.tiles_x(); ++ti) {
                const std::size_t tile = static_cast<std::size_t>(tj) * tiles.tiles_x() + ti;
                if (!tiles.awake(ti, tj) || (fastest[tile] <= may && !now.touched[tile]))
                    continue;
                core.set(ti, tj, true);
                add_around(tiles, ti, tj, brisk);
                front_near = front_near || tiles.beside_a_sleeper(ti, tj);
            }
        if (front_near && speed * step_s > most_cells_at_sleepers * dx)
            break;
        brisk.rebuild();
        const double substeps = std::ceil(step_s / fine_s);
        const double work = (whole + substeps * static_cast<double>(brisk.cells())) / step_s;
        if (work < least)
            least = work, best = {step_s, brisk, core};
        if (part_s >= now.longest_s)
            break;
    }
    return best;
}

void add_brisk(sheet::SheetState& s, Parts& parts, double cells_a_step) {
    const auto& tiles = s.film_tiles;
    const std::vector<float> fastest = waves(s, s.film_before_m);
    const double speed = cells_a_step * s.geometry.cell_m / parts.step_s;
    for (int tj = 0; tj < tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < tiles.tiles_x(); ++ti)
            if (fastest[static_cast<std::size_t>(tj) * tiles.tiles_x() + ti] > speed && !parts.brisk.awake(ti, tj))
                add_around(tiles, ti, tj, parts.brisk);
    const double share = 2 * pigment::upper_share * parts.step_s / s.geometry.cell_m;
    for (bool grew = true; grew;) {
        grew = false;
        for (const sheet::RimFace& f : sheet::rim_of(s, parts.brisk)) {
            const double gives = -f.out(static_cast<double>(f.given_m2_s)) * share;
            if (gives > pigment::most_through_rim * s.film_before_m(f.outer_i(), f.outer_j())) {
                parts.brisk.set(f.outer_i() / size, f.outer_j() / size, true);
                grew = true;
            }
        }
    }
    parts.brisk.rebuild();
}

} // namespace tidemark::rehearsal
