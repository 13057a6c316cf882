#include "water/multigrid_rows.h"

#include "grid/rows.h"
#include "water/parted.h"

#include <bit>
#include <cstdint>

// Pointers are copied to locals: through a reference the compiler reloads them after every store.
namespace tidemark::water {
namespace {

inline float nonzero(float w) { return w > 0 ? w : 1.0f; }

// The arithmetic once, as templates inlined into the cloned row functions below.
template <bool finest> __attribute__((always_inline)) inline void relax(const PartRow& r, int begin, int end) {
    float *de = r.de, *dp = r.dp;
    const float *de_w = r.de_w, *de_e = r.de_e, *de_n = r.de_n, *de_s = r.de_s;
    const float *dp_w = r.dp_w, *dp_e = r.dp_e, *dp_n = r.dp_n, *dp_s = r.dp_s;
    const float *c_w = r.c_w, *c_e = r.c_e, *c_n = r.c_n, *c_s = r.c_s;
    const float *diagonal = r.diagonal, *wet = r.wet, *r1 = r.r1, *r2 = r.r2;
    const float G = r.G;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float e = c_e[k], w = c_w[k], s = c_s[k], n = c_n[k];
        const float sum = (e + w) + (s + n), A = diagonal[k];
        const float share = finest ? 1.0f : nonzero(wet[k]);
        const float s1 = r1[k] + e * dp_e[k] + w * dp_w[k] + s * dp_s[k] + n * dp_n[k];
        const float around = (de_w[k] + de_e[k]) + (de_n[k] + de_s[k]);
        const float s2 = finest ? -G * around : r2[k] - G / share * around;
        const float new_de = (s1 - sum * s2) / (share + A * sum);
        de[k] = new_de;
        dp[k] = s2 + A * new_de;
    }
}

template <bool finest> __attribute__((always_inline)) inline void from_zero(const PartRow& r, int begin, int end) {
    float *de = r.de, *dp = r.dp;
    const float *c_w = r.c_w, *c_e = r.c_e, *c_n = r.c_n, *c_s = r.c_s;
    const float *diagonal = r.diagonal, *wet = r.wet, *r1 = r.r1, *r2 = r.r2;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float sum = (c_e[k] + c_w[k]) + (c_s[k] + c_n[k]), A = diagonal[k];
        const float share = finest ? 1.0f : nonzero(wet[k]), s2 = finest ? 0.0f : r2[k];
        const float new_de = (r1[k] - sum * s2) / (share + A * sum);
        de[k] = new_de;
        dp[k] = s2 + A * new_de;
    }
}

template <bool finest>
__attribute__((always_inline)) inline void residual(const PartRow& r, float* out1, float* out2, int begin, int end) {
    const float *de = r.de, *dp = r.dp;
    const float *de_w = r.de_w, *de_e = r.de_e, *de_n = r.de_n, *de_s = r.de_s;
    const float *dp_w = r.dp_w, *dp_e = r.dp_e, *dp_n = r.dp_n, *dp_s = r.dp_s;
    const float *c_w = r.c_w, *c_e = r.c_e, *c_n = r.c_n, *c_s = r.c_s;
    const float *diagonal = r.diagonal, *wet = r.wet, *r1 = r.r1, *r2 = r.r2;
    const float G = r.G;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float e = c_e[k], w = c_w[k], s = c_s[k], n = c_n[k];
        const float sum = (e + w) + (s + n), share = finest ? 1.0f : wet[k];
        out1[k] = r1[k] - share * de[k] - sum * dp[k] + e * dp_e[k] + w * dp_w[k] + s * dp_s[k] + n * dp_n[k];
        const float around = (de_w[k] + de_e[k]) + (de_n[k] + de_s[k]);
        const float open = (finest ? sum : share) > 0 ? 1.0f : 0.0f;
        out2[k] = open * (share * ((finest ? 0.0f : r2[k]) - dp[k] + diagonal[k] * de[k]) - G * around);
    }
}

} // namespace

TIDEMARK_CLONES void relax_row(const PartRow& r, int begin, int end, bool finest) {
    finest ? relax<true>(r, begin, end) : relax<false>(r, begin, end);
}

TIDEMARK_CLONES void relax_row_from_zero(const PartRow& r, int begin, int end, bool finest) {
    finest ? from_zero<true>(r, begin, end) : from_zero<false>(r, begin, end);
}

TIDEMARK_CLONES void residual_row(const PartRow& r, float* out1, float* out2, int begin, int end, bool finest) {
    finest ? residual<true>(r, out1, out2, begin, end) : residual<false>(r, out1, out2, begin, end);
}

TIDEMARK_CLONES void raise_largest(const float* x, float* largest, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const std::int32_t a = std::bit_cast<std::int32_t>(x[k]) & 0x7fffffff;
        const std::int32_t b = std::bit_cast<std::int32_t>(largest[k]);
        largest[k] = std::bit_cast<float>(a > b ? a : b);
    }
}

TIDEMARK_CLONES void part_row(const float* row, float* even, float* odd, int begin, int end) {
    const int from = begin / 2, pairs = end / 2;
#pragma omp simd
    for (int k = from; k < pairs; ++k) {
        even[k] = row[2 * k];
        odd[k] = row[2 * k + 1];
    }
    if (end % 2)
        even[pairs] = row[end - 1];
}

TIDEMARK_CLONES void join_row(const float* even, const float* odd, float* row, int begin, int end) {
    const int from = begin / 2, pairs = end / 2;
#pragma omp simd
    for (int k = from; k < pairs; ++k) {
        row[2 * k] = even[k];
        row[2 * k + 1] = odd[k];
    }
    if (end % 2)
        row[end - 1] = even[pairs];
}

} // namespace tidemark::water
