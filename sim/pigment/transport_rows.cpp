#include "pigment/transport_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/select.h"
#include "pigment/transport.h"

#include <cmath>

namespace tidemark::pigment {
namespace {

constexpr float no_depth_m = 1e-9f; ///< thinner water has no concentration and carries nothing

inline float out_of(float left, float right, float above, float below) {
    return (larger(right, 0.0f) + larger(-left, 0.0f)) + (larger(below, 0.0f) + larger(-above, 0.0f));
}

} // namespace

TIDEMARK_CLONES float cfl_row(int n, const float* film, RowFaces f, float dt_per_dx) {
    float worst = 0;
#pragma omp simd reduction(max : worst)
    for (int i = 0; i < n; ++i) {
        const float out = 2 * upper_share * dt_per_dx * out_of(f.left[i], f.left[i + 1], f.above[i], f.below[i]);
        worst = larger(worst, film[i] > no_depth_m ? out / film[i] : 0.0f);
    }
    return worst;
}

TIDEMARK_CLONES void water_row(int n, const float* film, RowFaces f, float k, float done, WaterRow w) {
    const float *left = f.left, *above = f.above, *below = f.below; // g++ 12 vectorises no structs left in memory
    float *per_lower = w.per_lower, *per_upper = w.per_upper, *out_m = w.out_m, *up = w.up_share,
          *down = w.down_share;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float div = k * ((left[i + 1] - left[i]) + (below[i] - above[i]));
        const float out = k * out_of(left[i], left[i + 1], above[i], below[i]);
        const float half = larger(0.0f, 0.5f * (film[i] - done * div));
        const float rise = smaller(half_excess * larger(div, 0.0f), half);
        const float sink = half_excess * larger(-div, 0.0f), gain = upper_share * larger(-div, 0.0f);
        // Rounding must not let a half give more than it has: then it gives all.
        const float lower = larger(half - rise, lower_share * out), upper = larger(half + rise, upper_share * out);
        const float wet = half > no_depth_m ? 1.0f : 0.0f;
        per_lower[i] = (lower > no_depth_m ? wet : 0.0f) / larger(lower, no_depth_m);
        per_upper[i] = wet / larger(upper, no_depth_m);
        out_m[i] = out;
        up[i] = wet * rise / larger(half, no_depth_m);
        down[i] = sink / larger(half + gain, no_depth_m);
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

float peak_row(int n, const float* c_lower, const float* c_upper) {
    float peak = 0;
#pragma omp simd reduction(max : peak)
    for (int i = 0; i < n; ++i)
        peak = larger(peak, c_lower[i] + c_upper[i]);
    return peak;
}

TIDEMARK_CLONES void slope_row(int n, HalfRow h, FaceRow f) {
    const float *c = h.c, *c_a = h.c_a, *c_b = h.c_b, *per = h.per, *per_a = h.per_a, *per_b = h.per_b;
    const float *out_m = h.out_m, *film = h.film, share = 0.5f * h.share;
    float *far = f.far, *near = f.near, *heft = f.heft;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float a = 2 * (c[i] - c_a[i]), b = 2 * (c_b[i] - c[i]), middle = 0.25f * (a + b);
        const float rising = larger(0.0f, smaller(smaller(a, b), middle));
        const float falling = smaller(0.0f, larger(larger(a, b), middle));
        // A dry neighbour's 1/depth is 0, any other's far above 1/2.
        const float reach = smaller(0.5f - share * out_m[i] * per[i], smaller(per_a[i], per_b[i]));
        const float e = larger(0.0f, reach) * (rising + falling);
        far[i] = c[i] + e, near[i] = c[i] - e;
        heft[i] = c[i] * film[i];
    }
}

TIDEMARK_CLONES void flux_row(int n, const float* flux, float scale, FaceRow from, FaceRow to, float* carried) {
    const float *far = from.far, *from_heft = from.heft, *near = to.near, *to_heft = to.heft;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float q = scale * flux[i], heft = larger(from_heft[i], to_heft[i]);
        const float gives = larger(q, 0.0f) * far[i], takes = larger(-q, 0.0f) * near[i];
        carried[i] = ((gives + heft) - heft) - ((takes + heft) - heft);
    }
}

TIDEMARK_CLONES void give_row(int n, const float* across, const float* above, const float* below, float* mass) {
#pragma omp simd
    for (int i = 0; i < n; ++i)
        mass[i] = larger(0.0f, mass[i] - ((across[i + 1] - across[i]) + (below[i] - above[i])));
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
