#include "water/update_rows.h"

#include "grid/largest.h"
#include "grid/rows.h"

#include <bit>
#include <cstdint>

namespace tidemark::water {
namespace {
inline float positive(float x) { return x > 0 ? x : 0.0f; }
inline float magnitude(float x) { return x > 0 ? x : 0.0f - x; } // +0 for both zeros
} // namespace

TIDEMARK_CLONES void
gain_row(const float* qx, const float* qy, const float* qy_up, float* r1, float k, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i)
        r1[i] = -k * ((qx[i] - qx[i - 1]) + (qy[i] - qy_up[i]));
}

TIDEMARK_CLONES void correct_row(
    const float* q0, const float* c, const float* dp_a, const float* dp_b, float* q, float w, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i)
        q[i] = q0[i] - w * c[i] * (dp_b[i] - dp_a[i]);
}

TIDEMARK_CLONES int overdrawn(const GivenRow& r, int begin, int end) {
    const float *h = r.h, *qx = r.qx, *qy = r.qy, *up = r.qy_up; // local: loads through `r` stop the vectoriser
    const float k = r.k;
    int count = 0;
#pragma omp simd reduction(+ : count)
    for (int i = begin; i < end; ++i) {
        const float out = k * (positive(qx[i]) + positive(-qx[i - 1]) + positive(qy[i]) + positive(-up[i]));
        count += out > h[i] ? 1 : 0;
    }
    return count;
}

TIDEMARK_CLONES void given_row(const GivenRow& r, int begin, int end) {
    const float k = r.k;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float out =
            k * (positive(r.qx[i]) + positive(-r.qx[i - 1]) + positive(r.qy[i]) + positive(-r.qy_up[i]));
        r.given[i] = out > r.h[i] ? 0.999999f * r.h[i] / out : 1.0f;
    }
}

TIDEMARK_CLONES void limit_row(float* q, const float* given_a, const float* given_b, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float a = given_a[i], b = given_b[i], flux = q[i];
        q[i] = flux * (flux > 0 ? a : flux < 0 ? b : 1.0f);
    }
}

/// The sum h + low is the depth. What passes a face is the exact product k q in double, the same for both its cells;
/// the part of the new depth that a float cannot hold stays in `low`.
TIDEMARK_CLONES Moved move_row(const MoveRow& r, int begin, int end) {
    const float *depth = r.h, *qx = r.qx, *qy = r.qy, *up = r.qy_up;
    float *low = r.low, *out = r.out;
    const double k = r.k;
    std::int32_t change = 0, speed = 0; // as ordered bits: a float maximum would not be vectorised
#pragma omp simd reduction(max : change, speed)
    for (int i = begin; i < end; ++i) {
        const float h = depth[i], east = qx[i], west = qx[i - 1], south = qy[i], north = up[i];
        const double gain = (k * west - k * east) + (k * north - k * south);
        const double sum = (static_cast<double>(h) + low[i]) + gain;
        const float after = positive(static_cast<float>(sum));
        out[i] = after;
        low[i] = static_cast<float>(sum - after);
        const float a = h + 10e-6f, b = h + 5e-6f, inverse = 1.0f / (a * b); // one division for both measures
        const float x = positive(east > -west ? east : -west), y = positive(south > -north ? south : -north);
        const std::int32_t moved = grid::ordered_bits(magnitude(static_cast<float>(gain)) * b * inverse);
        const std::int32_t leaves = grid::ordered_bits((x > y ? x : y) * a * inverse);
        change = change > moved ? change : moved;
        speed = speed > leaves ? speed : leaves;
    }
    return {std::bit_cast<float>(change), 3.0f * std::bit_cast<float>(speed)};
}

TIDEMARK_CLONES void
left_row(const float* before, const float* after, const float* de, float* left, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i)
        left[i] = (after[i] - before[i]) - de[i];
}

} // namespace tidemark::water
