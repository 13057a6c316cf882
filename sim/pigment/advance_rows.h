/// Row kernels of advance.h. Private to the room. n cells from the pointers on.
#pragma once
#include "pigment/grain.h"

namespace tidemark::pigment {

/// What the film of a row does to every pigment in it.
struct FilmRow {
    float* per_half;    ///< 2/h, 1/m; 0 where there is no film
    float* upper_drawn; ///< share of the upper half that refills the lower one
    float* lower_drawn; ///< share of the lower half (refilled) that goes into the sheet
    float* slowing;     ///< of settling, by crowding and gum, ≤ 1
    float* thinning;    ///< 1/gum's thickening, ≤ 1
    float* shear_Pa;    ///< at the paper
    float* gone;        ///< 1 where there is no film, else 0
};

/// `solids` depth of solids in the film (m), `gum` its mass (kg/m²); qx points at the face left of cell 0.
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
              const HinderedTable&,
              FilmRow);

struct PigmentRow {
    float *lower, *upper, *loose, *bound, *inside;
};
void pigment_row(int n, const FilmRow&, const GrainMotion&, float dt_s, PigmentRow);

/// Gum is dissolved: it goes where the water goes, evens out between the halves, and is left where that is gone.
void gum_row(int n, const FilmRow&, float diffusivity_m2_s, float dt_s, float* lower, float* upper, float* bound);

/// loose -> bound where dry is 1.
void bind_row(int n, const float* dry, float* loose, float* bound);

} // namespace tidemark::pigment
