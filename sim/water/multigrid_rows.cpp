#include "water/multigrid_rows.h"

#include "grid/largest.h"
#include "grid/rows.h"

#include <algorithm>
#include <bit>

namespace tidemark::water {
namespace {

constexpr int chunk = 256;

inline float positive(float x) { return x > 0 ? x : 0.0f; }
/// By bits: a `?:` on a store is turned into a branch, and the loop is then not vectorised.
inline float chosen(std::int32_t keep, float a, float b) {
    return std::bit_cast<float>((std::bit_cast<std::int32_t>(a) & keep) | (std::bit_cast<std::int32_t>(b) & ~keep));
}
inline float nonzero(float w) { return w > 0 ? w : 1.0f; }

/// What leaves the cell through tilt-driven faces per metre of its own depth increment.
inline float own_tilt(const LevelRow& r, int i) {
    return (positive(r.ax[i]) + positive(-r.ax[i - 1])) + (positive(r.ay[i]) + positive(-r.ay_up[i]));
}
/// What arrives through them from the neighbours' increments.
inline float neighbour_tilt(const LevelRow& r, int i) {
    return positive(-r.ax[i]) * r.de[i + 1] + positive(r.ax[i - 1]) * r.de[i - 1] +
           positive(-r.ay[i]) * r.de_down[i] + positive(r.ay_up[i]) * r.de_up[i];
}

// The arithmetic once, as templates inlined into the cloned row functions below.
template <bool tilted, bool finest>
__attribute__((always_inline)) inline void relax(const LevelRow& r, const std::int32_t* keep, int begin, int end) {
    const float G = r.G;
    float *de = r.de, *dp = r.dp; // local copies: through `r` the compiler reloads them after every store
    const float *de_up = r.de_up, *de_down = r.de_down, *dp_up = r.dp_up, *dp_down = r.dp_down;
    const float *cx = r.cx, *cy = r.cy, *cy_up = r.cy_up, *ax = r.ax, *ay = r.ay, *ay_up = r.ay_up;
    const float *diagonal = r.diagonal, *wet = r.wet, *r1 = r.r1, *r2 = r.r2;
    // Into a buffer first: the compiler sees a recurrence in de[i] = f(de[i-1]), though only cells of the other
    // colour are read where the result is kept.
    float de_next[chunk], dp_next[chunk];
    for (int from = begin; from < end; from += chunk) {
        const int to = from + chunk < end ? from + chunk : end;
#pragma omp simd
        for (int i = from; i < to; ++i) {
            const float e = cx[i], w = cx[i - 1], s = cy[i], n = cy_up[i];
            const float sum = (e + w) + (s + n), A = diagonal[i];
            float share = 1.0f;
            if (!finest)
                share = nonzero(wet[i]);
            float own = 0, s1 = r1[i] + e * dp[i + 1] + w * dp[i - 1] + s * dp_down[i] + n * dp_up[i];
            if (tilted) {
                own = (positive(ax[i]) + positive(-ax[i - 1])) + (positive(ay[i]) + positive(-ay_up[i]));
                s1 += positive(-ax[i]) * de[i + 1] + positive(ax[i - 1]) * de[i - 1] + positive(-ay[i]) * de_down[i] +
                      positive(ay_up[i]) * de_up[i];
            }
            const float around = (de[i - 1] + de[i + 1]) + (de_up[i] + de_down[i]);
            const float s2 = finest ? -G * around : r2[i] - G / share * around;
            const float new_de = (s1 - sum * s2) / (share + own + A * sum);
            const float new_dp = s2 + A * new_de;
            de_next[i - from] = chosen(keep[i], new_de, de[i]);
            dp_next[i - from] = chosen(keep[i], new_dp, dp[i]);
        }
        std::copy_n(de_next, to - from, de + from);
        std::copy_n(dp_next, to - from, dp + from);
    }
}

template <bool tilted, bool finest>
__attribute__((always_inline)) inline void
from_zero(const LevelRow& r, const std::int32_t* keep, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float sum = (r.cx[i] + r.cx[i - 1]) + (r.cy[i] + r.cy_up[i]), A = r.diagonal[i];
        const float share = finest ? 1.0f : nonzero(r.wet[i]);
        const float own = tilted ? own_tilt(r, i) : 0.0f;
        const float s2 = finest ? 0.0f : r.r2[i];
        const float de = chosen(keep[i], (r.r1[i] - sum * s2) / (share + own + A * sum), 0.0f);
        r.de[i] = de;
        r.dp[i] = chosen(keep[i], s2, 0.0f) + A * de;
    }
}

template <bool tilted, bool finest>
__attribute__((always_inline)) inline void residual(const LevelRow& r, float* out1, float* out2, int begin, int end) {
    const float G = r.G;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float e = r.cx[i], w = r.cx[i - 1], s = r.cy[i], n = r.cy_up[i];
        const float sum = (e + w) + (s + n);
        const float share = finest ? 1.0f : r.wet[i];
        float first = r.r1[i] - share * r.de[i] - sum * r.dp[i] + e * r.dp[i + 1] + w * r.dp[i - 1] +
                      s * r.dp_down[i] + n * r.dp_up[i];
        if (tilted)
            first += neighbour_tilt(r, i) - own_tilt(r, i) * r.de[i];
        const float around = (r.de[i - 1] + r.de[i + 1]) + (r.de_up[i] + r.de_down[i]);
        const float open = finest ? (sum > 0 ? 1.0f : 0.0f) : (share > 0 ? 1.0f : 0.0f);
        out1[i] = first;
        out2[i] = open * (share * ((finest ? 0.0f : r.r2[i]) - r.dp[i] + r.diagonal[i] * r.de[i]) - G * around);
    }
}

} // namespace

// One choice a row: each flavour is inlined into both clones.
TIDEMARK_CLONES void
relax_row(const LevelRow& r, const std::int32_t* keep, int begin, int end, bool tilted, bool finest) {
    if (finest) {
        tilted ? relax<true, true>(r, keep, begin, end) : relax<false, true>(r, keep, begin, end);
    } else {
        tilted ? relax<true, false>(r, keep, begin, end) : relax<false, false>(r, keep, begin, end);
    }
}

TIDEMARK_CLONES void
relax_row_from_zero(const LevelRow& r, const std::int32_t* keep, int begin, int end, bool tilted, bool finest) {
    if (finest) {
        tilted ? from_zero<true, true>(r, keep, begin, end) : from_zero<false, true>(r, keep, begin, end);
    } else {
        tilted ? from_zero<true, false>(r, keep, begin, end) : from_zero<false, false>(r, keep, begin, end);
    }
}

TIDEMARK_CLONES float
residual_row(const LevelRow& r, float* out1, float* out2, int begin, int end, bool tilted, bool finest) {
    if (!finest) {
        tilted ? residual<true, false>(r, out1, out2, begin, end) : residual<false, false>(r, out1, out2, begin, end);
        return 0;
    }
    tilted ? residual<true, true>(r, out1, out2, begin, end) : residual<false, true>(r, out1, out2, begin, end);
    return grid::largest_magnitude(out1, begin, end);
}

} // namespace tidemark::water
