#include "water/update_rows.h"

#include <bit>
#include <cstdint>

#include "grid/largest.h"
#include "grid/rows.h"

namespace tidemark::water {
namespace {
inline float positive(float x) { return x > 0 ? x : 0.0f; }
inline float magnitude(float x) { return x > 0 ? x : 0.0f - x; } // +0 for both zeros
} // namespace

TIDEMARK_CLONES void correct_row(const CorrectRow& r, int begin, int end, bool tilted) {
    const float w = r.w;
    if (tilted) {
#pragma omp simd
        for (int i = begin; i < end; ++i)
            r.q[i] = r.q0[i] - w * r.c[i] * (r.dp_b[i] - r.dp_a[i]) +
                     w * (positive(r.tilt[i]) * r.de_a[i] - positive(-r.tilt[i]) * r.de_b[i]);
    } else {
#pragma omp simd
        for (int i = begin; i < end; ++i) r.q[i] = r.q0[i] - w * r.c[i] * (r.dp_b[i] - r.dp_a[i]);
    }
}

TIDEMARK_CLONES int given_row(const GivenRow& r, int begin, int end) {
    const float k = r.k;
    int count = 0;
#pragma omp simd reduction(+ : count)
    for (int i = begin; i < end; ++i) {
        const float out = k * (positive(r.qx[i]) + positive(-r.qx[i - 1]) + positive(r.qy[i]) + positive(-r.qy_up[i]));
        const bool all = out > r.h[i];
        r.given[i] = all ? 0.999999f * r.h[i] / out : 1.0f;
        count += all;
    }
    return count;
}

TIDEMARK_CLONES void limit_row(float* q, const float* given_a, const float* given_b, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float a = given_a[i], b = given_b[i], flux = q[i];
        q[i] = flux * (flux > 0 ? a : flux < 0 ? b : 1.0f);
    }
}

/// The sum h + low is the depth. What passes a face is the exact product k q in double, the same for both its cells; the
/// part of the new depth that a float cannot hold stays in `low`.
TIDEMARK_CLONES float move_row(const MoveRow& r, int begin, int end) {
    const double k = r.k;
    std::int32_t change = 0; // as ordered bits: a float maximum would not be vectorised
#pragma omp simd reduction(max : change)
    for (int i = begin; i < end; ++i) {
        const double gain = (k * r.qx[i - 1] - k * r.qx[i]) + (k * r.qy_up[i] - k * r.qy[i]);
        const double sum = (static_cast<double>(r.h[i]) + r.low[i]) + gain;
        const float rounded = static_cast<float>(sum), depth = rounded > 0 ? rounded : 0.0f;
        r.out[i] = depth;
        r.low[i] = static_cast<float>(sum - depth);
        const std::int32_t size = grid::ordered_bits(magnitude(static_cast<float>(gain)) / (r.h[i] + 10e-6f));
        change = change > size ? change : size;
    }
    return std::bit_cast<float>(change);
}

TIDEMARK_CLONES float speed_row(const MoveRow& r, int begin, int end) {
    std::int32_t speed = 0;
#pragma omp simd reduction(max : speed)
    for (int i = begin; i < end; ++i) {
        const float x = magnitude(r.qx[i]) / ((r.qx[i] > 0 ? r.h[i] : r.h[i + 1]) + 5e-6f);
        const float y = magnitude(r.qy[i]) / ((r.qy[i] > 0 ? r.h[i] : r.h_down[i]) + 5e-6f);
        const std::int32_t larger = grid::ordered_bits(x > y ? x : y);
        speed = speed > larger ? speed : larger;
    }
    return 3.0f * std::bit_cast<float>(speed);
}

} // namespace tidemark::water
