#include "water/transfer_rows.h"

#include "grid/rows.h"

// Pointers are copied to locals: loads through a reference stop the vectoriser.
namespace tidemark::water {

TIDEMARK_CLONES void coarse_faces_row(Parts cx_0, Parts cx_1, Parts cy_1, float* cx, float* cy, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        cx[k] = 0.125f * (cx_0.odd[k] + cx_1.odd[k]);
        cy[k] = 0.125f * (cy_1.even[k] + cy_1.odd[k]);
    }
}

TIDEMARK_CLONES void mean_row(Parts fine_0, Parts fine_1, float* coarse, float less, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k)
        coarse[k] = 0.25f * ((fine_0.even[k] + fine_0.odd[k]) + (fine_1.even[k] + fine_1.odd[k])) - less;
}

TIDEMARK_CLONES void open_row(Parts cx, Parts cy, Parts cy_up, float* even, float* odd, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        even[k] = (cx.even[k] + cx.odd[k - 1]) + (cy.even[k] + cy_up.even[k]) > 0 ? 1.0f : 0.0f;
        odd[k] = (cx.odd[k] + cx.even[k]) + (cy.odd[k] + cy_up.odd[k]) > 0 ? 1.0f : 0.0f;
    }
}

TIDEMARK_CLONES void
lone_faces_row(Parts above, Parts wet_0, Parts wet_1, Parts below, float* lone, int begin, int end) {
    const float *a0 = wet_0.even, *b0 = wet_0.odd, *a1 = wet_1.even, *b1 = wet_1.odd;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float upper = a0[k] * (4 - b0[k - 1] - b0[k] - above.even[k] - a1[k]) +
                            b0[k] * (4 - a0[k] - a0[k + 1] - above.odd[k] - b1[k]);
        const float lower = a1[k] * (4 - b1[k - 1] - b1[k] - a0[k] - below.even[k]) +
                            b1[k] * (4 - a1[k] - a1[k + 1] - b0[k] - below.odd[k]);
        lone[k] = upper + lower;
    }
}

TIDEMARK_CLONES void without_lines_row(const float* lone, float G, float* stiffness, int begin, int end) {
#pragma omp simd
    for (int k = begin; k < end; ++k)
        stiffness[k] -= G * lone[k];
}

TIDEMARK_CLONES void coarse_diagonal_row(const CoarseDiagonalRow& r, int begin, int end) {
    const float *wet = r.wet, *w = r.wet_w, *e = r.wet_e, *n = r.wet_n, *s = r.wet_s;
    const float *lone = r.lone, *stiffness = r.stiffness, G = r.G, per_lone = r.per_lone;
    float* diagonal = r.diagonal;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float sides = ((w[k] > 0 ? 1.0f : 0.0f) + (e[k] > 0 ? 1.0f : 0.0f)) +
                            ((n[k] > 0 ? 1.0f : 0.0f) + (s[k] > 0 ? 1.0f : 0.0f));
        diagonal[k] = stiffness[k] + G * (sides + per_lone * lone[k]) / (wet[k] > 0 ? wet[k] : 1.0f);
    }
}

TIDEMARK_CLONES void restrict_row(const RestrictRow& r, int begin, int end) {
    const float *fa0 = r.first_even_0, *fb0 = r.first_odd_0, *fa1 = r.first_even_1, *fb1 = r.first_odd_1;
    const float *sa0 = r.second_even_0, *sb0 = r.second_odd_0, *sa1 = r.second_even_1, *sb1 = r.second_odd_1;
    const float* wet = r.wet;
    float *r1 = r.r1, *r2 = r.r2;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        r1[k] = 0.25f * ((fa0[k] + fb0[k]) + (fa1[k] + fb1[k]));
        r2[k] = 0.25f / (wet[k] > 0 ? wet[k] : 1.0f) * ((sa0[k] + sb0[k]) + (sa1[k] + sb1[k]));
    }
}

TIDEMARK_CLONES void prolong_row(const ProlongRow& r, int begin, int end) {
    const float *e0 = r.de_near, *e1 = r.de_far, *p0 = r.dp_near, *p1 = r.dp_far;
    const float *cxa = r.cx.even, *cxb = r.cx.odd, *cya = r.cy.even, *cyb = r.cy.odd;
    const float *upa = r.cy_up.even, *upb = r.cy_up.odd;
    float *dea = r.de_even, *deb = r.de_odd, *dpa = r.dp_even, *dpb = r.dp_odd;
#pragma omp simd
    for (int k = begin; k < end; ++k) {
        const float ec = 0.75f * e0[k] + 0.25f * e1[k], ew = 0.75f * e0[k - 1] + 0.25f * e1[k - 1];
        const float ee = 0.75f * e0[k + 1] + 0.25f * e1[k + 1], pc = 0.75f * p0[k] + 0.25f * p1[k];
        const float pw = 0.75f * p0[k - 1] + 0.25f * p1[k - 1], pe = 0.75f * p0[k + 1] + 0.25f * p1[k + 1];
        const float open_a = (cxa[k] + cxb[k - 1]) + (cya[k] + upa[k]) > 0 ? 1.0f : 0.0f;
        const float open_b = (cxb[k] + cxa[k]) + (cyb[k] + upb[k]) > 0 ? 1.0f : 0.0f;
        dea[k] += open_a * (0.75f * ec + 0.25f * ew);
        deb[k] += open_b * (0.75f * ec + 0.25f * ee);
        dpa[k] += open_a * (0.75f * pc + 0.25f * pw);
        dpb[k] += open_b * (0.75f * pc + 0.25f * pe);
    }
}

} // namespace tidemark::water
