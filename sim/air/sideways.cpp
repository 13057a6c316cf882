#include "air/sideways.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/wet_edge_detail.h"
#include "grid/rows.h"

namespace tidemark::air {
namespace {

constexpr float tolerance = 2e-5f;

/// Coarse cells a quarter of the layer, but at least 2 mm, and dividing a tile.
int block_cells(double cell_m, double layer_m) {
    int block = grid::TileSet::size;
    while (block > 1 && block * cell_m > std::max(0.25 * layer_m, 2e-3)) block /= 2;
    return block;
}

void gather_share(SidewaysVapour& a, const sheet::Geometry& g) {
    const int b = a.block;
    const float each = 1.0f / static_cast<float>(b * b);
    grid::for_rows(g.py / b, static_cast<long>(g.px) * g.py, [&](int J) {
        float* s = a.share.row(J + a.margin) + a.margin;
        for (int I = 0; I < g.px / b; ++I) {
            int n = 0;
            for (int j = J * b; j < (J + 1) * b; ++j)
                for (int i = I * b; i < (I + 1) * b; ++i) n += a.wet(i, j);
            s[I] = static_cast<float>(n) * each;
        }
    });
}

/// v at the cells of row j, straight between coarse cell centres.
void excess_row(const SidewaysVapour& a, int j, int nx, float* out) {
    const float b = static_cast<float>(a.block);
    const float y = (static_cast<float>(j) + 0.5f) / b - 0.5f + static_cast<float>(a.margin);
    const int J = static_cast<int>(y);
    const float fy = y - static_cast<float>(J);
    const float *top = a.excess.row(J), *below = a.excess.row(J + 1);
    for (int i = 0; i < nx; ++i) {
        const float x = (static_cast<float>(i) + 0.5f) / b - 0.5f + static_cast<float>(a.margin);
        const int I = static_cast<int>(x);
        const float fx = x - static_cast<float>(I);
        const float left = top[I] + fy * (below[I] - top[I]), right = top[I + 1] + fy * (below[I + 1] - top[I + 1]);
        out[i] = left + fx * (right - left);
    }
}

float shape_factor(float e, float vh, float v) {
    if (v >= vh) return 1 + (e - 1) * std::max(1 - v, 0.0f) / (1 - vh);
    return e * std::min(std::sqrt(std::sqrt(vh / std::max(v, 1e-6f))), 8.0f);
}

void factor_row(SidewaysVapour& a, int j, int nx, const float* v, const float* distance) {
    const std::uint8_t* wet = a.wet.row(j);
    float* f = a.factor.row(j);
    for (int i = 0; i < nx; ++i) {
        if (!wet[i]) {
            f[i] = std::clamp(1 - v[i], 0.05f, 1.0f);
            continue;
        }
        const float x = 8 * (distance[i] - 1);
        const std::size_t n = std::min(static_cast<std::size_t>(x), a.edge.size() - 2);
        const float t = std::min(x - static_cast<float>(n), 1.0f);
        const float e = a.edge[n] + t * (a.edge[n + 1] - a.edge[n]);
        const float vh = a.inside[n] + t * (a.inside[n + 1] - a.inside[n]);
        f[i] = shape_factor(e, vh, v[i]);
    }
}

} // namespace

double edge_integral_m(double x, double d) {
    const double pi = std::numbers::pi;
    return 2 * d / pi * (pi * x / (2 * d) + std::log1p(std::sqrt(-std::expm1(-pi * x / d))));
}

void prepare(SidewaysVapour& a, const sheet::Geometry& g, double layer_m) {
    a.layer_m = layer_m;
    a.block = block_cells(g.cell_m, layer_m);
    a.margin = 2 + static_cast<int>(3 * layer_m / (a.block * g.cell_m));
    a.share.resize(g.px / a.block + 2 * a.margin, g.py / a.block + 2 * a.margin, 0.0f);
    a.excess = a.share;
    a.factor.resize(g.px, g.py, 1.0f);
    a.wet.resize(g.px, g.py, 0);
    a.across.resize(g.px, g.py, 0.0f);
    a.wet_cells = 0;
    a.reach = std::max(2, static_cast<int>(std::ceil(2 * layer_m / g.cell_m)));
    a.edge.clear(), a.inside.clear();
    for (int n = 0; n <= 8 * a.reach; ++n) { // by distance of the cell's centre, from half a cell on
        const double x = (0.5 + n / 8.0) * g.cell_m, h = g.cell_m;
        a.edge.push_back(static_cast<float>(
            (edge_integral_m(x + h / 2, layer_m) - edge_integral_m(x - h / 2, layer_m)) / h));
        a.inside.push_back(static_cast<float>(1 - 0.5 * std::exp(-x / layer_m)));
    }
}

void update(SidewaysVapour& a, const sheet::SheetState& s, double wet_front_kg_m2) {
    const sheet::Geometry& g = s.geometry;
    mark_wet(a, s, wet_front_kg_m2);
    gather_share(a, g);
    a.sweeps = solve_screened(a.excess, a.share, a.block * g.cell_m, a.layer_m, tolerance, a.row_change);
    distance_across(a, g);
    grid::for_rows(g.ny, static_cast<long>(g.nx) * g.ny, [&](int j) {
        std::vector<float> v(g.px), distance(g.px);
        excess_row(a, j, g.nx, v.data());
        distance_to_dry(a, g, j, distance.data());
        factor_row(a, j, g.nx, v.data(), distance.data());
    });
}

} // namespace tidemark::air
