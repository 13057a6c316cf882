#include "fibre/creep.h"

#include "grid/rows.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>

namespace tidemark::fibre {
namespace {

using grid::TileSet;
using sheet::SheetState;

TIDEMARK_CLONES void
potential_cells(int n, double equilibrium, float per_kg_m2, const double* __restrict w, float* __restrict P) {
    for (int i = 0; i < n; ++i) {
        const float theta = std::max(static_cast<float>(w[i] - equilibrium) * per_kg_m2, 0.0f);
        const float full = std::min(theta, 1.0f);
        P[i] = full * full * full * (1 / 3.0f) + (theta - full); // beyond capacity D stays D₀
    }
}

/// Sum of the four flux differences; pairs first, so that a mirrored or transposed sheet gives the mirrored bits.
inline double inflow(const float* P, const float* up, const float* down, int i) {
    const double west = static_cast<double>(P[i - 1] - P[i]), east = static_cast<double>(P[i + 1] - P[i]);
    const double north = static_cast<double>(up[i] - P[i]), south = static_cast<double>(down[i] - P[i]);
    return (west + east) + (north + south);
}

TIDEMARK_CLONES void one_step_cells(int n,
                                    double c,
                                    const float* __restrict P,
                                    const float* __restrict up,
                                    const float* __restrict down,
                                    double* __restrict w) {
    for (int i = 0; i < n; ++i)
        w[i] += c * inflow(P, up, down, i);
}

TIDEMARK_CLONES void stage_cells(int n,
                                 double c,
                                 double nu,
                                 const float* __restrict P,
                                 const float* __restrict up,
                                 const float* __restrict down,
                                 double* __restrict w,
                                 double* __restrict before) {
    for (int i = 0; i < n; ++i) {
        const double y = w[i];
        w[i] = (y + nu * (before[i] - y)) + c * inflow(P, up, down, i);
        before[i] = y;
    }
}

int end_of(const SheetState& s, grid::Span span) { return std::min(span.end, s.geometry.nx); }

void make_potential(const SheetState& s,
                    const grid::Field<double>& half,
                    double equilibrium,
                    double range,
                    grid::Field<float>& potential) {
    grid::for_rows(s.geometry.ny, s.damp_tiles.cells(), [&](int j) {
        float* P = potential.row(j);
        for (const grid::Span span : s.damp_tiles.spans(j)) {
            const int begin = span.begin, end = end_of(s, span);
            potential_cells(end - begin, equilibrium, static_cast<float>(1 / range), half.row(j) + begin, P + begin);
        }
        // Closed ends: the cells beyond show the mirror image, in this row only.
        for (const grid::Span span : s.damp_tiles.spans(j)) {
            P[span.begin - 1] = P[span.begin];
            P[end_of(s, span)] = P[end_of(s, span) - 1];
        }
    });
}

/// f(begin, n, up, down) for stretches of row j whose neighbours above and below are awake (their row) or not (own).
template <class F> void stretches(const SheetState& s, const grid::Field<float>& P, int j, F&& f) {
    const int tile_j = j / TileSet::size;
    const bool inner = j % TileSet::size != 0 && j % TileSet::size != TileSet::size - 1 && j + 1 < s.geometry.ny;
    for (const grid::Span span : s.damp_tiles.spans(j)) {
        const int end = end_of(s, span), width = inner ? end - span.begin : TileSet::size;
        for (int i = span.begin; i < end; i += width) {
            const int above = (j - 1) / TileSet::size, below = (j + 1) / TileSet::size, tile_i = i / TileSet::size;
            const bool up = j > 0 && (above == tile_j || s.damp_tiles.awake(tile_i, above));
            const bool down = j + 1 < s.geometry.ny && (below == tile_j || s.damp_tiles.awake(tile_i, below));
            f(i, std::min(width, end - i), P.row(up ? j - 1 : j) + i, P.row(down ? j + 1 : j) + i);
        }
    }
}

} // namespace

double creep_diffusivity_m2_s(const materials::Paper& p) {
    constexpr double even = 1.128379167, square = 0.753052; // Philip's sorptivities for D and D₀ Θ²
    return p.lateral_diffusivity_m2_s * (even / square) * (even / square);
}

double creep_step_s(const SheetState& s) {
    const double D = creep_diffusivity_m2_s(s.paper), h = s.geometry.cell_m;
    return D > 0 ? 0.9 * h * h / (4 * D) : 1e30;
}

int creep_stages(double dt_s, double explicit_s) {
    const double ratio = dt_s / explicit_s;
    if (ratio <= 1)
        return 1;
    const int s = static_cast<int>(std::ceil(0.5 * (std::sqrt(1 + 8 * ratio) - 1)));
    return std::max(3, s + 1 - s % 2);
}

void creep(SheetState& s, CreepWorkspace& work, grid::Field<double>& half, double dt_s) {
    grid::within("dt_s", dt_s, grid::step_of_time);
    grid::within("cell_m", s.geometry.cell_m, {0.01, 100, "mm", 1e-3});
    grid::within("paper.lateral_diffusivity_m2_s", s.paper.lateral_diffusivity_m2_s, {0, 1e-6, "m²/s"});
    const double equilibrium = sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity);
    const double range = sheet::half_capacity_kg_m2(s.paper) - equilibrium;
    if (range <= 0 || s.paper.lateral_diffusivity_m2_s <= 0)
        return;
    const sheet::Geometry& g = s.geometry;
    const int stages = creep_stages(dt_s, creep_step_s(s));
    if (work.potential.nx() != g.px || work.potential.ny() != g.py)
        work.potential.resize(g.px, g.py);
    if (stages > 1 && (work.before.nx() != g.px || work.before.ny() != g.py))
        work.before.resize(g.px, g.py);
    const double whole = dt_s * creep_diffusivity_m2_s(s.paper) * range / (g.cell_m * g.cell_m);
    for (int k = 1; k <= stages; ++k) {
        make_potential(s, half, equilibrium, range, work.potential);
        // RKL1: y_k = (2k-1)/k y_(k-1) - (k-1)/k y_(k-2) + (2k-1)/k w dt L(y_(k-1)), w = 2/(s² + s)
        const double nu = (1.0 - k) / k, c = whole * 2 / (stages * (stages + 1.0)) * (2 * k - 1) / k;
        grid::for_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
            stretches(s, work.potential, j, [&](int i, int n, const float* up, const float* down) {
                const float* P = work.potential.row(j) + i;
                double* w = half.row(j) + i;
                if (stages == 1)
                    one_step_cells(n, c, P, up, down, w);
                else
                    stage_cells(n, c, nu, P, up, down, w, work.before.row(j) + i);
            });
        });
    }
}

} // namespace tidemark::fibre
