#include "air/drying_row_detail.h"
#include "air/evaporate.h"
#include "grid/units.h"

namespace tidemark::air {
namespace {

// By value and without branches, so that the loops become vector code.
inline float lesser(float a, float b) { return a < b ? a : b; }
inline float greater(float a, float b) { return a > b ? a : b; }

TIDEMARK_CLONES void film_cells(int n,
                                float reach_m,
                                float dt,
                                const float* __restrict factor,
                                float* __restrict film,
                                float* __restrict low,
                                double* __restrict front,
                                float* __restrict left_s,
                                double* __restrict loss) {
    constexpr float thinnest = static_cast<float>(thinnest_film_m);
    constexpr double per_m = grid::water_kg_m3;
    for (int i = 0; i < n; ++i) {
        const float h = film[i], l = low[i];
        const int any = h > 0;
        const double depth = static_cast<double>(h) + static_cast<double>(l);
        const float want = reach_m * factor[i];
        const float take = lesser(want, static_cast<float>(depth));
        const double goal = depth - static_cast<double>(take);
        const float high = static_cast<float>(goal);
        const float rest = static_cast<float>(goal - static_cast<double>(high));
        const int gone = any & (high < thinnest);
        // Booked: what the stored numbers lost; a last trace of film goes to the fibres instead.
        const double stored = static_cast<double>(high) + static_cast<double>(rest);
        const double lost = (depth - stored) * per_m, trace = stored * per_m;
        front[i] += gone ? trace : 0.0;
        loss[i] = any ? lost : 0.0;
        film[i] = gone ? 0.0f : (any ? high : h);
        low[i] = gone ? 0.0f : (any ? rest : l);
        const float unspent = dt - dt * (take / (want + 1e-30f));
        left_s[i] = gone ? unspent : (any ? 0.0f : dt);
    }
}

TIDEMARK_CLONES void fibre_cells(int n,
                                 double equilibrium,
                                 float saturated,
                                 float wet,
                                 float nodes,
                                 const float* __restrict k,
                                 const float* __restrict factor,
                                 const float* __restrict left_s,
                                 double* __restrict half,
                                 double* __restrict loss) {
    for (int i = 0; i < n; ++i) {
        const double now = half[i];
        const float w = static_cast<float>(now), excess = static_cast<float>(now - equilibrium);
        const float x = lesser(greater(w, 0.0f), saturated) * nodes;
        const int node = static_cast<int>(x);
        const float slope = k[node + 1] - k[node];
        const float rate_1_s = k[node] + (x - static_cast<float>(node)) * slope;
        const float falling = rate_1_s * excess, steep = greater(rate_1_s + slope * nodes * excess, 0.0f);
        const float E = w >= saturated ? wet : falling;
        const float dE_dw = w >= saturated ? 0.0f : steep;
        const float t = left_s[i] * factor[i];
        const float u = dE_dw * t; // t (1 - e^-u)/u = t (1 + u/6)/(1 + 2u/3 + u²/6) to third order
        const float step = E * t * (1 + u * (1 / 6.0f)) / (1 + u * (2 / 3.0f) + u * u * (1 / 6.0f));
        // Never past equilibrium, from either side: step between 0 and excess.
        const float held = lesser(greater(step, lesser(excess, 0.0f)), greater(excess, 0.0f));
        const double next = now - static_cast<double>(held);
        loss[i] = now - next;
        half[i] = next;
    }
}

} // namespace

void film_stretch(int n,
                  const CurveStep& c,
                  const float* factor,
                  float* film,
                  float* film_low,
                  double* front,
                  float* left_s,
                  double* loss) {
    const float reach_m = c.wet_kg_m2_s * c.dt_s / static_cast<float>(grid::water_kg_m3);
    film_cells(n, reach_m, c.dt_s, factor, film, film_low, front, left_s, loss);
}

void fibre_stretch(int n, const CurveStep& c, const float* factor, const float* left_s, double* half, double* loss) {
    fibre_cells(n, c.equilibrium_kg_m2, c.saturated_kg_m2, c.wet_kg_m2_s, c.nodes_per_kg_m2, c.k_1_s, factor, left_s,
                half, loss);
}

} // namespace tidemark::air
