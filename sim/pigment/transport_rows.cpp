#include "pigment/transport_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/select.h"
#include "pigment/transport.h"

#include <cmath>
#include <cstdint>

namespace tidemark::pigment {
namespace {

constexpr float all_leaves_m = 2 / (lower_share * through_per_m); ///< in through-flow: no slope there
constexpr float no_depth_m = 1e-9f; ///< thinner water has no concentration and carries nothing

inline float out_of(float left, float right, float above, float below) {
    return (larger(right, 0.0f) + larger(-left, 0.0f)) + (larger(below, 0.0f) + larger(-above, 0.0f));
}

/// Half of van Leer's monotonized central slope: the middle one, no further from 0 than the steps on either side.
/// `zero` is one that g++ 12 does not know: it would turn minima with 0 into three times as many comparisons.
inline float limited(float before, float here, float behind, float zero) {
    const float a = here - before, b = behind - here, middle = 0.25f * (a + b);
    const float rising = larger(zero, smaller(smaller(a, b), middle));
    const float falling = smaller(zero, larger(larger(a, b), middle));
    return rising + falling;
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

TIDEMARK_CLONES bool water_row(int n, const float* film, RowFaces f, float k, float done, WaterRow w) {
    const float *left = f.left, *above = f.above, *below = f.below; // g++ 12 vectorises no structs left in memory
    float *per_lower = w.per_lower, *per_upper = w.per_upper, *out_m = w.out_m, *up = w.up_share,
          *down = w.down_share;
    std::int32_t marked = 0;
#pragma omp simd reduction(| : marked)
    for (int i = 0; i < n; ++i) {
        const float div = k * ((left[i + 1] - left[i]) + (below[i] - above[i]));
        const float out = k * out_of(left[i], left[i + 1], above[i], below[i]);
        const float half = larger(0.0f, 0.5f * (film[i] - done * div));
        const float rise = smaller(half_excess * larger(div, 0.0f), half);
        const float sink = half_excess * larger(-div, 0.0f), gain = upper_share * larger(-div, 0.0f);
        // Rounding must not let a half give more than it has: then it gives all.
        const float lower = larger(half - rise, lower_share * out), upper = larger(half + rise, upper_share * out);
        const float wet = half > no_depth_m ? 1.0f : 0.0f;
        const float given = upper_share * out, leaves = larger(given, no_depth_m);
        const std::int32_t through = (leaves > half + rise) & (given > no_depth_m) & (div < 0.999f * out);
        marked |= through;
        const float gives_lower = (lower > no_depth_m ? wet : 0.0f) / larger(lower, no_depth_m);
        const float gives_upper = wet / larger(upper, no_depth_m);
        per_lower[i] = through ? through_per_m : gives_lower;
        per_upper[i] = through ? through_per_m : gives_upper;
        out_m[i] = through ? all_leaves_m : out;
        up[i] = wet * rise / larger(half, no_depth_m);
        down[i] = sink / larger(half + gain, no_depth_m);
    }
    return marked != 0;
}

TIDEMARK_CLONES void raise_row(int n,
                               RiseRow r,
                               float* __restrict lower,
                               float* __restrict upper,
                               float* __restrict c_lower,
                               float* __restrict c_upper) {
    const float *up = r.up_share, *per_lower = r.per_lower, *per_upper = r.per_upper;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i];
        pass_on(l, u, up[i] * l);
        lower[i] = l, upper[i] = u;
        c_lower[i] = l * per_lower[i], c_upper[i] = u * per_upper[i];
    }
}

TIDEMARK_CLONES float look_row(
    int n, RiseRow r, const float* lower, const float* upper, float* __restrict c_lower, float* __restrict c_upper) {
    const float *up = r.up_share, *per_lower = r.per_lower, *per_upper = r.per_upper;
    float peak = 0;
#pragma omp simd reduction(max : peak)
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i];
        pass_on(l, u, up[i] * l);
        const float c_l = l * per_lower[i], c_u = u * per_upper[i];
        c_lower[i] = c_l, c_upper[i] = c_u;
        peak = larger(peak, c_l + c_u);
    }
    return peak;
}

TIDEMARK_CLONES float peak_row(int n, const float* lower, const float* upper) {
    float peak = 0;
#pragma omp simd reduction(max : peak)
    for (int i = 0; i < n; ++i)
        peak = larger(peak, lower[i] + upper[i]);
    return peak;
}

TIDEMARK_CLONES void slope_row(int n, HalfRow h, float* __restrict across, float* __restrict down) {
    const float *c = h.c, *c_above = h.c_above, *c_below = h.c_below, *out_m = h.out_m, share = h.share,
                zero = 0 * share;
    const float *per = h.per, *per_above = h.per_above, *per_below = h.per_below;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float stays = larger(1.0f - share * out_m[i] * per[i], zero);
        // A dry neighbour's 1/depth is 0, any other's far above 1.
        const float reach_x = smaller(stays, smaller(per[i - 1], per[i + 1]));
        const float reach_y = smaller(stays, smaller(per_above[i], per_below[i]));
        across[i] = reach_x * limited(c[i - 1], c[i], c[i + 1], zero);
        down[i] = reach_y * limited(c_above[i], c[i], c_below[i], zero);
    }
}

TIDEMARK_CLONES void
flux_row(int n, const float* flux, float scale, FaceSide from, FaceSide to, float* __restrict carried) {
    const float *from_c = from.c, *from_rise = from.rise, *from_film = from.film;
    const float *to_c = to.c, *to_rise = to.rise, *to_film = to.film;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float q = scale * flux[i], heft = larger(from_c[i] * from_film[i], to_c[i] * to_film[i]);
        const float far = from_c[i] + from_rise[i], near = to_c[i] - to_rise[i];
        const float along = std::copysign(heft, q);
        carried[i] = (q * (q > 0 ? far : near) + along) - along;
    }
}

TIDEMARK_CLONES void give_row(int n, GiveRow lower, GiveRow upper, const float* down_share) {
    const float *across_l = lower.across, *above_l = lower.above, *below_l = lower.below;
    const float *across_u = upper.across, *above_u = upper.above, *below_u = upper.below;
    float *mass_l = lower.mass, *mass_u = upper.mass;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = mass_l[i] - ((across_l[i + 1] - across_l[i]) + (below_l[i] - above_l[i]));
        float u = mass_u[i] - ((across_u[i + 1] - across_u[i]) + (below_u[i] - above_u[i]));
        l = larger(0.0f, l), u = larger(0.0f, u);
        pass_on(u, l, down_share[i] * u);
        mass_l[i] = l, mass_u[i] = u;
    }
}

} // namespace tidemark::pigment
