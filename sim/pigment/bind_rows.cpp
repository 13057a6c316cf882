#include "pigment/bind_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/select.h"

namespace tidemark::pigment {

TIDEMARK_CLONES bool any(int n, const float* m) {
    float most = 0;
#pragma omp simd reduction(max : most)
    for (int i = 0; i < n; ++i)
        most = larger(most, m[i]);
    return most > 0;
}

TIDEMARK_CLONES bool bare_row(int n, const float* film, float* __restrict bare) {
    float most = 0;
#pragma omp simd reduction(max : most)
    for (int i = 0; i < n; ++i) {
        const float is = film[i] < no_film_m ? 1.0f : 0.0f;
        bare[i] = is;
        most = larger(most, is);
    }
    return most > 0;
}

TIDEMARK_CLONES bool
dry_row(int n, const sheet::StageRule& rule, const float* film, const double* front, float* __restrict dry) {
    if (!bare_row(n, film, dry))
        return false;
    const double wet_m = rule.wet_film_m, moist_m = rule.moist_film_m, damp_kg_m2 = rule.dry_front_kg_m2;
    float most = 0;
#pragma omp simd reduction(max : most)
    for (int i = 0; i < n; ++i) {
        // Products of 0 and 1: g++ 12 vectorises no && here.
        const float thin = (film[i] < wet_m ? 1.0f : 0.0f) * (film[i] < moist_m ? 1.0f : 0.0f);
        const float is = dry[i] * thin * (front[i] > damp_kg_m2 ? 0.0f : 1.0f);
        dry[i] = is;
        most = larger(most, is);
    }
    return most > 0;
}

TIDEMARK_CLONES void
set_down_row(int n, const float* bare, float* __restrict lower, float* __restrict upper, float* __restrict down) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        down[i] += bare[i] * (lower[i] + upper[i]);
        lower[i] *= 1 - bare[i], upper[i] *= 1 - bare[i];
    }
}

TIDEMARK_CLONES void bind_row(int n, const float* dry, float* __restrict loose, float* __restrict bound) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        bound[i] += dry[i] * loose[i];
        loose[i] *= 1 - dry[i];
    }
}

} // namespace tidemark::pigment
