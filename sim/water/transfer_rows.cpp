#include "water/transfer_rows.h"

#include "grid/rows.h"

// Pointers are copied to locals: loads through a reference stop the vectoriser.
namespace tidemark::water {

TIDEMARK_CLONES void coarse_faces_row(const CoarseFacesRow& r, int begin, int end) {
    const float *cx_0 = r.cx_0, *cx_1 = r.cx_1, *cy_1 = r.cy_1, share = r.share;
    float *cx = r.cx, *cy = r.cy;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        cx[i] = share * (cx_0[2 * i + 1] + cx_1[2 * i + 1]);
        cy[i] = share * (cy_1[2 * i] + cy_1[2 * i + 1]);
    }
}

TIDEMARK_CLONES void
mean_row(const float* fine_0, const float* fine_1, float* coarse, float less, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i)
        coarse[i] = 0.25f * ((fine_0[2 * i] + fine_0[2 * i + 1]) + (fine_1[2 * i] + fine_1[2 * i + 1])) - less;
}

TIDEMARK_CLONES void open_row(const float* cx, const float* cy, const float* cy_up, float* wet, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i)
        wet[i] = (cx[i] + cx[i - 1]) + (cy[i] + cy_up[i]) > 0 ? 1.0f : 0.0f;
}

TIDEMARK_CLONES void lone_faces_row(
    const float* above, const float* wet_0, const float* wet_1, const float* below, float* lone, int begin, int end) {
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const int a = 2 * i, b = a + 1;
        const float upper = wet_0[a] * (4 - wet_0[a - 1] - wet_0[b] - above[a] - wet_1[a]) +
                            wet_0[b] * (4 - wet_0[a] - wet_0[b + 1] - above[b] - wet_1[b]);
        const float lower = wet_1[a] * (4 - wet_1[a - 1] - wet_1[b] - wet_0[a] - below[a]) +
                            wet_1[b] * (4 - wet_1[a] - wet_1[b + 1] - wet_0[b] - below[b]);
        lone[i] = upper + lower;
    }
}

TIDEMARK_CLONES void coarse_diagonal_row(const CoarseDiagonalRow& r, int begin, int end) {
    const float *wet = r.wet, *up = r.wet_up, *down = r.wet_down, *lone = r.lone, *stiffness = r.stiffness;
    const float G = r.G, per_lone = r.per_lone;
    float* diagonal = r.diagonal;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float sides = ((wet[i - 1] > 0 ? 1.0f : 0.0f) + (wet[i + 1] > 0 ? 1.0f : 0.0f)) +
                            ((up[i] > 0 ? 1.0f : 0.0f) + (down[i] > 0 ? 1.0f : 0.0f));
        diagonal[i] = stiffness[i] + G * (sides + per_lone * lone[i]) / (wet[i] > 0 ? wet[i] : 1.0f);
    }
}

TIDEMARK_CLONES void restrict_row(const RestrictRow& r, int begin, int end) {
    const float *first_0 = r.first_0, *first_1 = r.first_1, *second_0 = r.second_0, *second_1 = r.second_1;
    const float* wet = r.wet;
    float *r1 = r.r1, *r2 = r.r2;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const int a = 2 * i, b = a + 1;
        r1[i] = 0.25f * ((first_0[a] + first_0[b]) + (first_1[a] + first_1[b]));
        r2[i] = 0.25f / (wet[i] > 0 ? wet[i] : 1.0f) * ((second_0[a] + second_0[b]) + (second_1[a] + second_1[b]));
    }
}

TIDEMARK_CLONES void prolong_row(const ProlongRow& r, int begin, int end) {
    const float *e0 = r.de_near, *e1 = r.de_far, *p0 = r.dp_near, *p1 = r.dp_far;
    const float *cx = r.cx, *cy = r.cy, *up = r.cy_up;
    float *de = r.de, *dp = r.dp;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float ec = 0.75f * e0[i] + 0.25f * e1[i], ew = 0.75f * e0[i - 1] + 0.25f * e1[i - 1];
        const float ee = 0.75f * e0[i + 1] + 0.25f * e1[i + 1], pc = 0.75f * p0[i] + 0.25f * p1[i];
        const float pw = 0.75f * p0[i - 1] + 0.25f * p1[i - 1], pe = 0.75f * p0[i + 1] + 0.25f * p1[i + 1];
        const int a = 2 * i, b = a + 1;
        const float open_a = (cx[a] + cx[a - 1]) + (cy[a] + up[a]) > 0 ? 1.0f : 0.0f;
        const float open_b = (cx[b] + cx[a]) + (cy[b] + up[b]) > 0 ? 1.0f : 0.0f;
        de[a] += open_a * (0.75f * ec + 0.25f * ew);
        de[b] += open_b * (0.75f * ec + 0.25f * ee);
        dp[a] += open_a * (0.75f * pc + 0.25f * pw);
        dp[b] += open_b * (0.75f * pc + 0.25f * pe);
    }
}

} // namespace tidemark::water
