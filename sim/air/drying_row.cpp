#include "air/drying_row_detail.h"

#include <algorithm>

#include "air/evaporate.h"
#include "grid/units.h"

namespace tidemark::air {
namespace {

TIDEMARK_CLONES void film_cells(int n, float reach_m, float dt, const float* __restrict factor,
                                float* __restrict film, float* __restrict low, double* __restrict front,
                                float* __restrict left_s, double* __restrict loss) {
    constexpr float thinnest = static_cast<float>(thinnest_film_m);
    for (int i = 0; i < n; ++i) {
        const double depth = static_cast<double>(film[i]) + static_cast<double>(low[i]);
        const bool any = film[i] > 0;
        const float want = reach_m * factor[i];
        const float take = std::min(want, static_cast<float>(depth));
        const double goal = depth - static_cast<double>(any ? take : 0.0f);
        float high = static_cast<float>(goal);
        float rest = static_cast<float>(goal - static_cast<double>(high));
        const bool gone = any && high < thinnest;
        // Booked: what the stored numbers lost; a last trace of film goes to the fibres instead.
        const double stored = static_cast<double>(high) + static_cast<double>(rest);
        front[i] += gone ? stored * grid::water_kg_m3 : 0.0;
        loss[i] = any ? (depth - stored) * grid::water_kg_m3 : 0.0;
        high = gone ? 0.0f : high, rest = gone ? 0.0f : rest;
        film[i] = any ? high : film[i];
        low[i] = any ? rest : low[i];
        const float share = gone && want > 0 ? 1 - take / want : (any ? 0.0f : 1.0f);
        left_s[i] = dt * share;
    }
}

TIDEMARK_CLONES void fibre_cells(int n, double equilibrium, float saturated, float wet, float nodes,
                                 const float* __restrict k, const float* __restrict factor,
                                 const float* __restrict left_s, double* __restrict half, double* __restrict loss) {
    for (int i = 0; i < n; ++i) {
        const float w = static_cast<float>(half[i]);
        const float excess = static_cast<float>(half[i] - equilibrium);
        const float x = std::min(std::max(w, 0.0f), saturated) * nodes;
        const int node = static_cast<int>(x);
        const float slope = k[node + 1] - k[node];
        const float rate_1_s = k[node] + (x - static_cast<float>(node)) * slope;
        const bool free_water = w >= saturated;
        const float E = free_water ? wet : rate_1_s * excess;
        const float dE_dw = free_water ? 0.0f : std::max(rate_1_s + slope * nodes * excess, 0.0f);
        const float t = left_s[i] * factor[i];
        const float u = dE_dw * t; // t (1 - e^-u)/u = t (1 + u/6)/(1 + 2u/3 + u²/6) to third order
        const float step = E * t * (1 + u * (1 / 6.0f)) / (1 + u * (2 / 3.0f) + u * u * (1 / 6.0f));
        // Never past equilibrium, from either side: step between 0 and excess.
        const float least = std::min(excess, 0.0f), most = std::max(excess, 0.0f);
        const double next = half[i] - static_cast<double>(std::min(std::max(step, least), most));
        loss[i] = half[i] - next;
        half[i] = next;
    }
}

} // namespace

void film_stretch(int n, const CurveStep& c, const float* factor, float* film, float* film_low, double* front,
                  float* left_s, double* loss) {
    const float reach_m = c.wet_kg_m2_s * c.dt_s / static_cast<float>(grid::water_kg_m3);
    film_cells(n, reach_m, c.dt_s, factor, film, film_low, front, left_s, loss);
}

void fibre_stretch(int n, const CurveStep& c, const float* factor, const float* left_s, double* half, double* loss) {
    fibre_cells(n, c.equilibrium_kg_m2, c.saturated_kg_m2, c.wet_kg_m2_s, c.nodes_per_kg_m2, c.k_1_s, factor, left_s,
                half, loss);
}

} // namespace tidemark::air
