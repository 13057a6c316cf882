#include "pigment/transport_rows.h"

#include <algorithm>

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/transport.h"

namespace tidemark::pigment {
namespace {

constexpr float no_depth_m = 1e-9f; ///< thinner water has no concentration and carries nothing

inline float out_of(float left, float right, float above, float below) {
    return (std::max(right, 0.0f) + std::max(-left, 0.0f)) + (std::max(below, 0.0f) + std::max(-above, 0.0f));
}

TIDEMARK_CLONES float worst_share(int n, const float* __restrict film, const float* __restrict left,
                                  const float* __restrict above, const float* __restrict below) {
    float worst = 0;
#pragma omp simd reduction(max : worst)
    for (int i = 0; i < n; ++i) {
        const float share = 2 * upper_share * out_of(left[i], left[i + 1], above[i], below[i]) /
                            std::max(film[i], no_depth_m);
        worst = std::max(worst, film[i] > no_depth_m ? share : 0.0f);
    }
    return worst;
}

TIDEMARK_CLONES void water(int n, const float* __restrict film, const float* __restrict left,
                           const float* __restrict above, const float* __restrict below, float k, float done,
                           float* __restrict per_lower, float* __restrict per_upper, float* __restrict out_m,
                           float* __restrict up_share, float* __restrict down_share) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float div = k * ((left[i + 1] - left[i]) + (below[i] - above[i]));
        const float out = k * out_of(left[i], left[i + 1], above[i], below[i]);
        const float half = std::max(0.0f, 0.5f * (film[i] - done * div));
        const float rise = std::min(half_excess * std::max(div, 0.0f), half);
        const float sink = half_excess * std::max(-div, 0.0f);
        // Rounding must not let a half give more than it has: then it gives all.
        const float lower = std::max(half - rise, lower_share * out), upper = std::max(half + rise, upper_share * out);
        per_lower[i] = half > no_depth_m && lower > no_depth_m ? 1.0f / lower : 0.0f;
        per_upper[i] = half > no_depth_m ? 1.0f / upper : 0.0f;
        out_m[i] = out;
        up_share[i] = half > no_depth_m ? rise / half : 0.0f;
        down_share[i] = sink > 0 ? sink / (half + upper_share * std::max(-div, 0.0f)) : 0.0f;
    }
}

TIDEMARK_CLONES void raise(int n, const float* __restrict up_share, const float* __restrict per_lower,
                           const float* __restrict per_upper, float* __restrict lower, float* __restrict upper,
                           float* __restrict c_lower, float* __restrict c_upper) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i];
        pass_on(l, u, up_share[i] * l);
        lower[i] = l, upper[i] = u;
        c_lower[i] = l * per_lower[i], c_upper[i] = u * per_upper[i];
    }
}

TIDEMARK_CLONES void slopes(int n, const float* __restrict c, const float* __restrict c_a, const float* __restrict c_b,
                            const float* __restrict per, const float* __restrict per_a, const float* __restrict per_b,
                            const float* __restrict out_m, float share, float* __restrict far_face,
                            float* __restrict near_face) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float a = c[i] - c_a[i], b = c_b[i] - c[i], ab = a * b;
        const float reach = std::max(0.0f, 0.5f - 0.5f * share * out_m[i] * per[i]);
        const bool smooth = (ab > 0) & (per_a[i] > 0) & (per_b[i] > 0);
        const float e = smooth ? reach * (2 * ab / (a + b)) : 0.0f;
        far_face[i] = c[i] + e, near_face[i] = c[i] - e;
    }
}

TIDEMARK_CLONES void upwind(int n, const float* __restrict flux, const float* __restrict from,
                            const float* __restrict to, float* __restrict carried) {
#pragma omp simd
    for (int i = 0; i < n; ++i) carried[i] = flux[i] * (flux[i] > 0 ? from[i] : to[i]);
}

TIDEMARK_CLONES void give(int n, const float* __restrict x_left, const float* __restrict above,
                          const float* __restrict below, float scale, float* __restrict mass) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float div = (x_left[i + 1] - x_left[i]) + (below[i] - above[i]);
        mass[i] = std::max(0.0f, mass[i] - scale * div);
    }
}

TIDEMARK_CLONES void sink(int n, const float* __restrict down_share, float* __restrict lower,
                          float* __restrict upper) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i];
        pass_on(u, l, down_share[i] * u);
        lower[i] = l, upper[i] = u;
    }
}

} // namespace

float cfl_row(int n, const float* film, RowFaces f, float dt_per_dx) {
    return dt_per_dx * worst_share(n, film, f.left, f.above, f.below);
}
void water_row(int n, const float* film_before, RowFaces f, float dt_per_dx, float done, WaterRow w) {
    water(n, film_before, f.left, f.above, f.below, dt_per_dx, done, w.per_lower, w.per_upper, w.out_m, w.up_share,
          w.down_share);
}
void raise_row(int n, const float* up_share, const float* per_lower, const float* per_upper, float* lower, float* upper,
               float* c_lower, float* c_upper) {
    raise(n, up_share, per_lower, per_upper, lower, upper, c_lower, c_upper);
}
void slope_row(int n, HalfRow h, float* far_face, float* near_face) {
    slopes(n, h.c, h.c_a, h.c_b, h.per, h.per_a, h.per_b, h.out_m, h.share, far_face, near_face);
}
void flux_row(int n, const float* flux, const float* from, const float* to, float* carried) {
    upwind(n, flux, from, to, carried);
}
void give_row(int n, const float* x_left, const float* above, const float* below, float scale, float* mass) {
    give(n, x_left, above, below, scale, mass);
}
void sink_row(int n, const float* down_share, float* lower, float* upper) { sink(n, down_share, lower, upper); }

} // namespace tidemark::pigment
