#include "water/minimal_residual_rows.h"

#include "grid/rows.h"

// Pointers are copied to locals: through a reference the compiler reloads them after every store.
namespace tidemark::water {
namespace {

template <bool image> __attribute__((always_inline)) inline void apply(const PartRow& r, float* out, int begin, int end) {
    const float *de = r.de, *dp = r.dp;
    const float *dp_w = r.dp_w, *dp_e = r.dp_e, *dp_n = r.dp_n, *dp_s = r.dp_s;
    const float *c_w = r.c_w, *c_e = r.c_e, *c_n = r.c_n, *c_s = r.c_s, *r1 = r.r1;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float given = c_e[k] * (dp[k] - dp_e[k]) + c_w[k] * (dp[k] - dp_w[k]) + c_s[k] * (dp[k] - dp_s[k]) +
                            c_n[k] * (dp[k] - dp_n[k]);
        out[k] = image ? de[k] + given : r1[k] - de[k] - given;
    }
}

} // namespace

TIDEMARK_CLONES void pressure_of_row(const PartRow& r, int begin, int end) {
    float* dp = r.dp;
    const float *de = r.de, *de_w = r.de_w, *de_e = r.de_e, *de_n = r.de_n, *de_s = r.de_s, *diagonal = r.diagonal;
    const float G = r.G;
#pragma omp simd
    for (int k = begin; k < end; ++k)
        dp[k] = diagonal[k] * de[k] - G * ((de_w[k] + de_e[k]) + (de_n[k] + de_s[k]));
}

TIDEMARK_CLONES void image_row(const PartRow& r, float* out, int begin, int end) { apply<true>(r, out, begin, end); }

TIDEMARK_CLONES void left_of_row(const PartRow& r, float* out, int begin, int end) { apply<false>(r, out, begin, end); }

TIDEMARK_CLONES double dot_row(const float* a, const float* b, int begin, int end) {
    double lane[8] = {};
    int k = begin;
    for (; k + 8 <= end; k += 8)
        for (int i = 0; i < 8; ++i)
            lane[i] += static_cast<double>(a[k + i]) * static_cast<double>(b[k + i]);
    for (; k < end; ++k)
        lane[k & 7] += static_cast<double>(a[k]) * static_cast<double>(b[k]);
    return ((lane[0] + lane[1]) + (lane[2] + lane[3])) + ((lane[4] + lane[5]) + (lane[6] + lane[7]));
}

TIDEMARK_CLONES void add_row(float* to, const float* what, float factor, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k)
        to[k] += factor * what[k];
}

} // namespace tidemark::water
