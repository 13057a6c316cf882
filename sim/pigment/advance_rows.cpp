#include "pigment/advance_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/stir.h"
#include "pigment/viscosity.h"

#include <algorithm>
#include <cmath>

namespace tidemark::pigment {
namespace {

constexpr float per_floc = static_cast<float>(1 / floc_solid_share);

TIDEMARK_CLONES void film_water(int n,
                                const float* __restrict film,
                                const float* __restrict drawn,
                                float* __restrict per_half,
                                float* __restrict upper_drawn,
                                float* __restrict lower_drawn,
                                float* __restrict gone) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float h = film[i], d = drawn[i], before = h + d;
        gone[i] = h < no_film_m ? 1.0f : 0.0f;
        per_half[i] = h < no_film_m ? 0.0f : 2.0f / h;
        // Depth d leaves the lower half while d/2 comes down into it: an even film stays even.
        upper_drawn[i] = d > 0 ? d / before : 0.0f;
        lower_drawn[i] = d > 0 ? 2 * d / (before + d) : 0.0f;
    }
}

TIDEMARK_CLONES void film_drag(int n,
                               const float* __restrict per_half,
                               const float* __restrict solids,
                               const float* __restrict gum_lower,
                               const float* __restrict gum_upper,
                               const float* __restrict left,
                               const float* __restrict above,
                               const float* __restrict below,
                               float viscosity_Pa_s,
                               const float* __restrict hindered_at,
                               float* __restrict slowing,
                               float* __restrict thinning,
                               float* __restrict shear_Pa) {
    for (int i = 0; i < n; ++i) {
        const float per_film = 0.5f * per_half[i];
        const float thick = gum_thickening((gum_lower[i] + gum_upper[i]) * per_film);
        const float x = std::min(solids[i] * per_film * per_floc, 1.0f) * HinderedTable::cells;
        const int k = static_cast<int>(x);
        const float crowd = hindered_at[k] + (x - static_cast<float>(k)) * (hindered_at[k + 1] - hindered_at[k]);
        const float qx = 0.5f * (left[i] + left[i + 1]), qy = 0.5f * (above[i] + below[i]);
        thinning[i] = 1.0f / thick;
        slowing[i] = crowd * thinning[i];
        shear_Pa[i] = 3 * viscosity_Pa_s * thick * std::sqrt(qx * qx + qy * qy) * per_film * per_film;
    }
}

/// Towards equal halves: the difference decays at 8 D/h² (centres h/2 apart), implicit.
inline void even_out(float& lower, float& upper, float rate_dt) {
    const float shift = 0.5f * (upper - lower) * (rate_dt / (1 + rate_dt));
    pass_on(upper, lower, std::max(shift, 0.0f));
    pass_on(lower, upper, std::max(-shift, 0.0f));
}

TIDEMARK_CLONES void move_pigment(int n,
                                  const float* __restrict per_half,
                                  const float* __restrict upper_drawn,
                                  const float* __restrict lower_drawn,
                                  const float* __restrict slowing,
                                  const float* __restrict thinning,
                                  const float* __restrict shear_Pa,
                                  const float* __restrict gone,
                                  const GrainMotion g,
                                  float dt_s,
                                  float* __restrict lower,
                                  float* __restrict upper,
                                  float* __restrict loose,
                                  float* __restrict bound,
                                  float* __restrict inside) {
    const float fall = g.settle_m_s * dt_s, stick = g.capture_m_s * dt_s, jitter = 2 * g.diffusivity_m2_s * dt_s;
    const float lift = stir_rate_1_s * dt_s, per_threshold = 1 / g.stir_Pa;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i], o = loose[i], b = bound[i], in = inside[i];
        pass_on(u, l, upper_drawn[i] * u);
        const float drawn = lower_drawn[i] * l;
        pass_on(l, in, g.inside_share * drawn);
        pass_on(l, o, std::min(drawn - g.inside_share * drawn, l));
        even_out(l, u, jitter * thinning[i] * per_half[i] * per_half[i]);
        const float stirred = lift * std::max(0.0f, shear_Pa[i] * per_threshold - 1);
        pass_on(o, l, o * (stirred / (1 + stirred)));
        const float ks = fall * slowing[i] * per_half[i], kb = stick * per_half[i];
        pass_on(u, l, u * (ks / (1 + ks)));
        const float per = l / (1 + ks + kb);
        pass_on(l, b, kb * per);
        pass_on(l, o, std::min(ks * per, l));
        o += gone[i] * (l + u);
        lower[i] = l * (1 - gone[i]), upper[i] = u * (1 - gone[i]);
        loose[i] = o, bound[i] = b, inside[i] = in;
    }
}

TIDEMARK_CLONES void move_gum(int n,
                              const float* __restrict per_half,
                              const float* __restrict upper_drawn,
                              const float* __restrict lower_drawn,
                              const float* __restrict thinning,
                              const float* __restrict gone,
                              float jitter,
                              float* __restrict lower,
                              float* __restrict upper,
                              float* __restrict bound) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i], b = bound[i];
        pass_on(u, l, upper_drawn[i] * u);
        pass_on(l, b, lower_drawn[i] * l);
        even_out(l, u, jitter * thinning[i] * per_half[i] * per_half[i]);
        b += gone[i] * (l + u);
        lower[i] = l * (1 - gone[i]), upper[i] = u * (1 - gone[i]), bound[i] = b;
    }
}

TIDEMARK_CLONES void bind(int n, const float* __restrict dry, float* __restrict loose, float* __restrict bound) {
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        bound[i] += dry[i] * loose[i];
        loose[i] *= 1 - dry[i];
    }
}

} // namespace

void film_row(int n,
              const float* film,
              const float* drawn,
              const float* solids,
              const float* gum_lower,
              const float* gum_upper,
              const float* qx,
              const float* qy_above,
              const float* qy,
              float viscosity_Pa_s,
              const HinderedTable& hindered_table,
              FilmRow r) {
    film_water(n, film, drawn, r.per_half, r.upper_drawn, r.lower_drawn, r.gone);
    film_drag(n, r.per_half, solids, gum_lower, gum_upper, qx, qy_above, qy, viscosity_Pa_s, hindered_table.at.data(),
              r.slowing, r.thinning, r.shear_Pa);
}

void pigment_row(int n, const FilmRow& f, const GrainMotion& g, float dt_s, PigmentRow p) {
    move_pigment(n, f.per_half, f.upper_drawn, f.lower_drawn, f.slowing, f.thinning, f.shear_Pa, f.gone, g, dt_s,
                 p.lower, p.upper, p.loose, p.bound, p.inside);
}

void gum_row(int n, const FilmRow& f, float diffusivity_m2_s, float dt_s, float* lower, float* upper, float* bound) {
    move_gum(n, f.per_half, f.upper_drawn, f.lower_drawn, f.thinning, f.gone, 2 * diffusivity_m2_s * dt_s, lower,
             upper, bound);
}

void bind_row(int n, const float* dry, float* loose, float* bound) { bind(n, dry, loose, bound); }

} // namespace tidemark::pigment
