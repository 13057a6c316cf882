#include "pigment/advance_rows.h"

#include "grid/rows.h"
#include "pigment/hold.h"
#include "pigment/select.h"
#include "pigment/stir.h"
#include "pigment/viscosity.h"

#include <cmath>
#include <numbers>

// Pointers are taken out of their structs first: g++ 12 vectorises no loop over structs left in memory.
namespace tidemark::pigment {
namespace {

constexpr float per_floc = static_cast<float>(1 / floc_solid_share);
constexpr float per_pi = static_cast<float>(1 / std::numbers::pi);

/// Towards equal halves: the difference decays at 8 D/h² (centres h/2 apart), implicit.
inline void even_out(float& lower, float& upper, float rate_dt) {
    const float shift = 0.5f * (upper - lower) * (rate_dt / (1 + rate_dt));
    const bool down = shift > 0;
    float from = down ? upper : lower, to = down ? lower : upper;
    pass_on(from, to, std::fabs(shift));
    upper = down ? from : to, lower = down ? to : from;
}

/// What fibre catches of a lower half in a step, over what stays there (hold.h). `spread`: D dt.
inline float caught(float lower, float bound, float per_half, float affinity, float spread, float lower_drawn) {
    const float drawn = lower_drawn / larger(per_half * (1 - lower_drawn), 1.0f); // depth; 0 without film
    const float met = affinity * lower * per_half;
    const float layer = smaller(bound / larger(met, 1e-18f), per_pi / larger(per_half, 1.0f));
    const float open = larger(0.0f, 1 - layer * drawn / spread), gain = 4 * per_pi * spread * open * open;
    return affinity * per_half * gain / (layer + std::sqrt(layer * layer + gain) + 1e-20f);
}

} // namespace

TIDEMARK_CLONES void film_water_row(int n, const float* film, const float* drawn, FilmRow f) {
    float *per_half = f.per_half, *upper_drawn = f.upper_drawn, *lower_drawn = f.lower_drawn, *gone = f.gone;
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        const float h = film[i], d = drawn[i], before = h + d;
        const bool film_here = h >= no_film_m, draws = d > 0;
        gone[i] = film_here ? 0.0f : 1.0f;
        per_half[i] = film_here ? 2.0f / h : 0.0f;
        // Depth d leaves the lower half while d/2 comes down into it: an even film stays even.
        upper_drawn[i] = draws ? d / before : 0.0f;
        lower_drawn[i] = draws ? 2 * d / (before + d) : 0.0f;
    }
}

TIDEMARK_CLONES void
add_solids_row(int n, float per_density, const float* lower, const float* upper, float* __restrict solids) {
#pragma omp simd
    for (int i = 0; i < n; ++i)
        solids[i] += per_density * (lower[i] + upper[i]);
}

TIDEMARK_CLONES float film_drag_row(int n, DragRow d, FilmRow f) {
    const float *solids = d.solids, *gum_lower = d.gum_lower, *gum_upper = d.gum_upper, *per_half = f.per_half;
    const float *left = d.left, *above = d.above, *below = d.below, viscosity_Pa_s = d.viscosity_Pa_s;
    float *slowing = f.slowing, *thinning = f.thinning, *shear_Pa = f.shear_Pa, most = 0;
#pragma omp simd reduction(max : most)
    for (int i = 0; i < n; ++i) {
        const float per_film = 0.5f * per_half[i];
        const float thick = gum_thickening((gum_lower[i] + gum_upper[i]) * per_film);
        const float crowd = hindered(solids[i] * per_film * per_floc);
        const float qx = 0.5f * (left[i] + left[i + 1]), qy = 0.5f * (above[i] + below[i]);
        thinning[i] = 1.0f / thick;
        slowing[i] = crowd * thinning[i];
        const float shear = 3 * viscosity_Pa_s * thick * std::sqrt(qx * qx + qy * qy) * per_film * per_film;
        shear_Pa[i] = shear;
        most = larger(most, shear);
    }
    return most;
}

namespace {

/// Inlined into both clones of pigment_row.
template <bool stirs>
[[gnu::always_inline]] inline void pigment_cells(int n, FilmRow f, const GrainMotion& g, float dt_s, PigmentRow p) {
    const float *per_half = f.per_half, *upper_drawn = f.upper_drawn, *lower_drawn = f.lower_drawn;
    const float *slowing = f.slowing, *thinning = f.thinning, *shear_Pa = f.shear_Pa, *gone = f.gone;
    float *lower = p.lower, *upper = p.upper, *loose = p.loose, *bound = p.bound, *inside = p.inside;
    const float fall = g.settle_m_s * dt_s, jitter = 2 * g.diffusivity_m2_s * dt_s;
    const float affinity = g.affinity, spread = g.diffusivity_m2_s * dt_s;
    const float lift = stir_rate_1_s * dt_s, per_threshold = 1 / g.stir_Pa, finer = g.inside_share;
    const float soaks = g.soak_1_s * dt_s / (1 + g.soak_1_s * dt_s);
#pragma omp simd
    for (int i = 0; i < n; ++i) {
        float l = lower[i], u = upper[i], o = loose[i], b = bound[i], in = inside[i];
        pass_on(u, l, upper_drawn[i] * u);
        const float drawn = lower_drawn[i] * l;
        pass_on(l, in, finer * drawn);
        pass_on(l, o, smaller(drawn - finer * drawn, l));
        even_out(l, u, jitter * thinning[i] * per_half[i] * per_half[i]);
        if constexpr (stirs) {
            const float stirred = lift * larger(0.0f, shear_Pa[i] * per_threshold - 1);
            pass_on(o, l, o * (stirred / (1 + stirred)));
        }
        const float soaked = soaks * (1.0f - gone[i]);
        pass_on(in, l, in * soaked);
        pass_on(b, l, b * soaked);
        const float ks = fall * slowing[i] * per_half[i];
        const float kb = caught(l, b, per_half[i], affinity, spread * thinning[i], lower_drawn[i]);
        pass_on(u, l, u * (ks / (1 + ks)));
        const float per = l / (1 + ks + kb);
        pass_on(l, b, kb * per);
        pass_on(l, o, smaller(ks * per, l));
        o += gone[i] * (l + u);
        lower[i] = l * (1 - gone[i]), upper[i] = u * (1 - gone[i]);
        loose[i] = o, bound[i] = b, inside[i] = in;
    }
}

} // namespace

bool lifts(const GrainMotion& g, float shear_Pa) { return shear_Pa * (1 / g.stir_Pa) - 1 > 0; }

TIDEMARK_CLONES void pigment_row(int n, FilmRow f, const GrainMotion& g, float dt_s, bool stirs, PigmentRow p) {
    if (stirs)
        pigment_cells<true>(n, f, g, dt_s, p);
    else
        pigment_cells<false>(n, f, g, dt_s, p);
}

TIDEMARK_CLONES void
gum_row(int n, FilmRow f, float diffusivity_m2_s, float dt_s, float* lower, float* upper, float* bound) {
    const float *per_half = f.per_half, *upper_drawn = f.upper_drawn, *lower_drawn = f.lower_drawn;
    const float *thinning = f.thinning, *gone = f.gone, jitter = 2 * diffusivity_m2_s * dt_s;
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

} // namespace tidemark::pigment
