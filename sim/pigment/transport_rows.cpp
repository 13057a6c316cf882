#include "pigment/transport_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/transport.h"

#include <algorithm>
#include <cmath>

namespace tidemark::pigment {
namespace {

constexpr float no_depth_m = 1e-9f; ///< thinner water has no concentration and carries nothing

inline float out_of(float left, float right, float above, float below) {
    return (std::max(right, 0.0f) + std::max(-left, 0.0f)) + (std::max(below, 0.0f) + std::max(-above, 0.0f));
}

} // namespace

TIDEMARK_CLONES float cfl_row(int n, const float* film, RowFaces f, float dt_per_dx) {
    float worst = 0;
#pragma omp simd reduction(max : worst)
    for (int i = 0; i < n; ++i) {
        const float out = 2 * upper_share * dt_per_dx * out_of(f.left[i], f.left[i + 1], f.above[i], f.below[i]);
        worst = std::max(worst, film[i] > no_depth_m ? out / film[i] : 0.0f);
    }
    return worst;
}

TIDEMARK_CLONES void water_row(int n, const float* film, RowFaces f, float k, float done, WaterRow w) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float div = k * ((f.left[i + 1] - f.left[i]) + (f.below[i] - f.above[i]));
        const float out = k * out_of(f.left[i], f.left[i + 1], f.above[i], f.below[i]);
        const float half = std::max(0.0f, 0.5f * (film[i] - done * div));
        const float rise = std::min(half_excess * std::max(div, 0.0f), half);
        const float sink = half_excess * std::max(-div, 0.0f), gain = upper_share * std::max(-div, 0.0f);
        // Rounding must not let a half give more than it has: then it gives all.
        const float lower = std::max(half - rise, lower_share * out),
                    upper = std::max(half + rise, upper_share * out);
        w.per_lower[i] = half > no_depth_m && lower > no_depth_m ? 1.0f / lower : 0.0f;
        w.per_upper[i] = half > no_depth_m ? 1.0f / upper : 0.0f;
        w.out_m[i] = out;
        w.up_share[i] = half > no_depth_m ? rise / half : 0.0f;
        w.down_share[i] = sink > 0 ? sink / (half + gain) : 0.0f;
    }
}

TIDEMARK_CLONES void raise_row(int n, RaiseRow r) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = r.lower[i], u = r.upper[i];
        pass_on(l, u, r.up_share[i] * l);
        r.lower[i] = l, r.upper[i] = u;
        r.c_lower[i] = l * r.per_lower[i], r.c_upper[i] = u * r.per_upper[i];
    }
}

TIDEMARK_CLONES void slope_row(int n, HalfRow h, FaceRow f) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float a = h.c[i] - h.c_a[i], b = h.c_b[i] - h.c[i], sum = a + b;
        const float reach = std::max(0.0f, 0.5f - 0.5f * h.share * h.out_m[i] * h.per[i]);
        const float steep = std::min(2 * std::min(std::abs(a), std::abs(b)), 0.5f * std::abs(sum));
        const bool smooth = (a * b > 0) & (h.per_a[i] > 0) & (h.per_b[i] > 0);
        const float e = smooth ? reach * std::copysign(steep, sum) : 0.0f;
        f.far[i] = h.c[i] + e, f.near[i] = h.c[i] - e;
        f.heft[i] = h.c[i] * h.film[i];
    }
}

TIDEMARK_CLONES void flux_row(int n, const float* flux, float scale, FaceRow from, FaceRow to, float* carried) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float q = scale * flux[i], heft = std::max(from.heft[i], to.heft[i]);
        const float whole = (std::abs(q) * (q > 0 ? from.far[i] : to.near[i]) + heft) - heft;
        carried[i] = std::copysign(whole, q);
    }
}

TIDEMARK_CLONES void give_row(int n, const float* across, const float* above, const float* below, float* mass) {
#pragma omp simd
    for (int i = 0; i < n; ++i)
        mass[i] = std::max(0.0f, mass[i] - ((across[i + 1] - across[i]) + (below[i] - above[i])));
}

TIDEMARK_CLONES void sink_row(int n, const float* down_share, float* lower, float* upper) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i];
        pass_on(u, l, down_share[i] * u);
        lower[i] = l, upper[i] = u;
    }
}

} // namespace tidemark::pigment
