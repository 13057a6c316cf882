#include "water/multigrid_rows.h"

#include "grid/rows.h"

namespace tidemark::water {
namespace {

inline float positive(float x) { return x > 0 ? x : 0.0f; }
inline float nonzero(float w) { return w > 0 ? w : 1.0f; }

/// What leaves the cell through tilt-driven faces per metre of its own depth increment.
inline float own_tilt(const LevelRow& r, int i) {
    return (positive(r.ax[i]) + positive(-r.ax[i - 1])) + (positive(r.ay[i]) + positive(-r.ay_up[i]));
}
/// What arrives through them from the neighbours' increments.
inline float neighbour_tilt(const LevelRow& r, int i) {
    return positive(-r.ax[i]) * r.de[i + 1] + positive(r.ax[i - 1]) * r.de[i - 1] + positive(-r.ay[i]) * r.de_down[i] +
           positive(r.ay_up[i]) * r.de_up[i];
}

// The arithmetic once, as templates inlined into the cloned row functions below.
template <bool tilted, bool finest>
__attribute__((always_inline)) inline void relax(const LevelRow& r, const float* keep, int begin, int end) {
    const float G = r.G;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float e = r.cx[i], w = r.cx[i - 1], s = r.cy[i], n = r.cy_up[i];
        const float sum = (e + w) + (s + n), A = r.diagonal[i];
        const float share = finest ? 1.0f : nonzero(r.wet[i]);
        const float own = tilted ? own_tilt(r, i) : 0.0f;
        float s1 = r.r1[i] + e * r.dp[i + 1] + w * r.dp[i - 1] + s * r.dp_down[i] + n * r.dp_up[i];
        if (tilted) s1 += neighbour_tilt(r, i);
        const float around = (r.de[i - 1] + r.de[i + 1]) + (r.de_up[i] + r.de_down[i]);
        const float s2 = (finest ? 0.0f : r.r2[i]) - (finest ? G : G / share) * around;
        const float de = (s1 - sum * s2) / (share + own + A * sum);
        const float dp = s2 + A * de;
        const bool mine = keep[i] > 0;
        const float old_de = r.de[i], old_dp = r.dp[i];
        r.de[i] = mine ? de : old_de;
        r.dp[i] = mine ? dp : old_dp;
    }
}

template <bool tilted, bool finest>
__attribute__((always_inline)) inline void from_zero(const LevelRow& r, const float* keep, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float sum = (r.cx[i] + r.cx[i - 1]) + (r.cy[i] + r.cy_up[i]), A = r.diagonal[i];
        const float share = finest ? 1.0f : nonzero(r.wet[i]);
        const float own = tilted ? own_tilt(r, i) : 0.0f;
        const float s2 = finest ? 0.0f : r.r2[i];
        const float de = keep[i] * ((r.r1[i] - sum * s2) / (share + own + A * sum));
        r.de[i] = de;
        r.dp[i] = keep[i] * s2 + A * de;
    }
}

template <bool tilted, bool finest>
__attribute__((always_inline)) inline float residual(const LevelRow& r, float* out1, float* out2, int begin, int end) {
    const float G = r.G;
    float worst = 0;
#pragma omp simd reduction(max : worst)
    for (int i = begin; i < end; ++i) {
        const float e = r.cx[i], w = r.cx[i - 1], s = r.cy[i], n = r.cy_up[i];
        const float sum = (e + w) + (s + n);
        const float share = finest ? 1.0f : r.wet[i];
        float first = r.r1[i] - share * r.de[i] - sum * r.dp[i] + e * r.dp[i + 1] + w * r.dp[i - 1] +
                      s * r.dp_down[i] + n * r.dp_up[i];
        if (tilted) first += neighbour_tilt(r, i) - own_tilt(r, i) * r.de[i];
        const float around = (r.de[i - 1] + r.de[i + 1]) + (r.de_up[i] + r.de_down[i]);
        const float open = finest ? (sum > 0 ? 1.0f : 0.0f) : (share > 0 ? 1.0f : 0.0f);
        out1[i] = first;
        out2[i] = open * (share * ((finest ? 0.0f : r.r2[i]) - r.dp[i] + r.diagonal[i] * r.de[i]) - G * around);
        const float size = first > 0 ? first : -first;
        worst = worst > size ? worst : size;
    }
    return worst;
}

} // namespace

// One choice a row: each flavour is inlined into both clones.
TIDEMARK_CLONES void relax_row(const LevelRow& r, const float* keep, int begin, int end, bool tilted, bool finest) {
    if (finest) {
        tilted ? relax<true, true>(r, keep, begin, end) : relax<false, true>(r, keep, begin, end);
    } else {
        tilted ? relax<true, false>(r, keep, begin, end) : relax<false, false>(r, keep, begin, end);
    }
}

TIDEMARK_CLONES void relax_row_from_zero(
    const LevelRow& r, const float* keep, int begin, int end, bool tilted, bool finest) {
    if (finest) {
        tilted ? from_zero<true, true>(r, keep, begin, end) : from_zero<false, true>(r, keep, begin, end);
    } else {
        tilted ? from_zero<true, false>(r, keep, begin, end) : from_zero<false, false>(r, keep, begin, end);
    }
}

TIDEMARK_CLONES float residual_row(
    const LevelRow& r, float* out1, float* out2, int begin, int end, bool tilted, bool finest) {
    if (finest) {
        return tilted ? residual<true, true>(r, out1, out2, begin, end) : residual<false, true>(r, out1, out2, begin, end);
    }
    return tilted ? residual<true, false>(r, out1, out2, begin, end) : residual<false, false>(r, out1, out2, begin, end);
}

} // namespace tidemark::water
