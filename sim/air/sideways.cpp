#include "air/sideways.h"

#include "air/wet_edge_detail.h"
#include "grid/rows.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidemark::air {
namespace {

constexpr float tolerance = 2e-5f;

/// Coarse cells a quarter of the layer, but at least 2 mm, and dividing a tile.
int block_cells(double cell_m, double layer_m) {
    int block = grid::TileSet::size;
    while (block > 1 && block * cell_m > std::max(0.25 * layer_m, 2e-3))
        block /= 2;
    return block;
}

void gather_share(SidewaysVapour& a, const sheet::Geometry& g) {
    const int b = a.block;
    const float each = 1.0f / static_cast<float>(b * b);
    grid::for_rows(g.py / b, static_cast<long>(g.px) * g.py, [&](int J) {
        float* s = a.share.row(J + a.margin) + a.margin;
        for (int I = 0; I < g.px / b; ++I) {
            int n = 0;
            for (int j = J * b; j < (J + 1) * b; ++j) {
                const std::uint8_t* wet = a.wet.row(j) + I * b;
                for (int i = 0; i < b; ++i)
                    n += wet[i];
            }
            s[I] = static_cast<float>(n) * each;
        }
    });
}

/// v at cells begin ... end of row j (a tile's width), straight between coarse cell centres.
void excess_of(const SidewaysVapour& a, int j, int begin, int end, float* out) {
    constexpr int width = grid::TileSet::size;
    const float b = static_cast<float>(a.block);
    const float y = (static_cast<float>(j) + 0.5f) / b - 0.5f + static_cast<float>(a.margin);
    const int J = static_cast<int>(y), first = begin / a.block + a.margin - 1, n = (end - begin - 1) / a.block + 3;
    const float fy = y - static_cast<float>(J);
    const float *top = a.excess.row(J) + first, *below = a.excess.row(J + 1) + first;
    float v[width + 2];
    for (int I = 0; I < n; ++I)
        v[I] = top[I] + fy * (below[I] - top[I]);
    for (int k = 0; k < a.block; ++k) {
        const float x = (static_cast<float>(k) + 0.5f) / b + 0.5f; // from the coarse centre on the left, 0.5 ... 1.5
        const int left = x >= 1;
        const float t = x - static_cast<float>(left);
        for (int I = left, i = k; i < end - begin; ++I, i += a.block)
            out[i] = v[I] + t * (v[I + 1] - v[I]);
    }
}

/// `d2`: square of the distance to the nearest dry cell's centre; the wet edge lies half a cell before that.
TIDEMARK_CLONES void factor_cells(int n,
                                  const float* __restrict edge,
                                  const float* __restrict inside,
                                  int last,
                                  const std::uint8_t* __restrict wet,
                                  const float* __restrict v,
                                  const std::int32_t* __restrict d2,
                                  float* __restrict factor) {
    for (int i = 0; i < n; ++i) {
        const float far = 8 * (std::sqrt(static_cast<float>(d2[i])) - 1);
        const float x = far < 0 ? 0.0f : far;
        const int whole = static_cast<int>(x), k = whole < last ? whole : last;
        const float past = x - static_cast<float>(k), t = past < 1 ? past : 1.0f;
        const float e = edge[k] + t * (edge[k + 1] - edge[k]);
        const float vh = inside[k] + t * (inside[k + 1] - inside[k]);
        const float air = v[i] < 1e-6f ? 1e-6f : (v[i] > 1 ? 1.0f : v[i]);
        const float lone = e * std::sqrt(std::sqrt(vh / air)), crowded = 1 + (e - 1) * (1 - air) / (1 - vh);
        const float shaped = air < vh ? lone : crowded;
        const float dry = 1 - air;
        factor[i] = wet[i] ? shaped : (dry < 0.05f ? 0.05f : dry);
    }
}

} // namespace

double edge_integral_m(double x, double d) {
    const double pi = std::numbers::pi;
    return 2 * d / pi * (pi * x / (2 * d) + std::log1p(std::sqrt(-std::expm1(-pi * x / d))));
}

void prepare(SidewaysVapour& a, const sheet::Geometry& g, double layer_m) {
    grid::within("cell_m", g.cell_m, {0.01, 100, "mm", 1e-3});
    grid::within("layer_m", layer_m, {0.1, 1000, "mm", 1e-3});
    a.layer_m = layer_m;
    a.block = block_cells(g.cell_m, layer_m);
    a.margin = 2 + static_cast<int>(3 * layer_m / (a.block * g.cell_m));
    a.share.resize(g.px / a.block + 2 * a.margin, g.py / a.block + 2 * a.margin, 0.0f);
    a.excess = a.share;
    a.factor.resize(g.px, g.py, 1.0f);
    a.wet.resize(g.px, g.py, 0);
    a.across2.resize(g.px, g.py, 0);
    a.least2.resize(g.px / grid::TileSet::size, g.py, 0);
    a.wet_cells = 0;
    a.reach = std::max(2, static_cast<int>(std::ceil(2 * layer_m / g.cell_m)));
    a.edge.clear(), a.inside.clear();
    for (int n = 0; n <= 8 * a.reach; ++n) { // by distance of the cell's centre, from half a cell on
        const double x = (0.5 + n / 8.0) * g.cell_m, h = g.cell_m;
        a.edge.push_back(
            static_cast<float>((edge_integral_m(x + h / 2, layer_m) - edge_integral_m(x - h / 2, layer_m)) / h));
        a.inside.push_back(static_cast<float>(1 - 0.5 * std::exp(-x / layer_m)));
    }
}

void update(SidewaysVapour& a, const sheet::SheetState& s, double wet_front_kg_m2) {
    grid::within("wet_front_kg_m2", wet_front_kg_m2, {0, 10, "kg/m²"});
    const sheet::Geometry& g = s.geometry;
    mark_wet(a, s, wet_front_kg_m2);
    gather_share(a, g);
    a.sweeps = solve_screened(a.excess, a.share, a.block * g.cell_m, a.layer_m, tolerance, a.row_change);
    distance_across(a, g);
    grid::for_rows(g.ny, s.damp_tiles.cells(), [&](int j) {
        constexpr int width = grid::TileSet::size;
        float v[width];
        std::int32_t d2[width];
        std::fill_n(a.factor.row(j), g.nx, 1.0f);
        for (const grid::Span span : s.damp_tiles.spans(j))
            for (int begin = span.begin; begin < std::min(span.end, g.nx); begin += width) {
                const int end = std::min(begin + width, g.nx);
                excess_of(a, j, begin, end, v);
                distance2_to_dry(a, g, j, begin, end, d2);
                factor_cells(end - begin, a.edge.data(), a.inside.data(), static_cast<int>(a.edge.size()) - 2,
                             a.wet.row(j) + begin, v, d2, a.factor.row(j) + begin);
            }
    });
}

} // namespace tidemark::air
