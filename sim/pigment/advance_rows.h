/// Row kernels of advance.h. Private to the room. n cells from the pointers on; no two pointers overlap, but for
/// neighbours of one row.
#pragma once
#include "pigment/grain.h"

namespace tidemark::pigment {

/// What the film of a row does to every pigment in it.
struct FilmRow {
    float* per_half;    ///< 2/h, 1/m; 0 where there is no film
    float* upper_drawn; ///< share of the upper half that refills the lower one
    float* lower_drawn; ///< share of the lower half (refilled) that goes into the sheet
    float* slowing;     ///< of settling, by crowding and gum, <= 1
    float* thinning;    ///< 1/gum's thickening, <= 1
    float* shear_Pa;    ///< at the paper
    float* gone;        ///< 1 where there is no film, else 0
};

void film_water_row(int n, const float* film, const float* drawn, FilmRow);

/// solids += per_density (lower + upper)
void add_solids_row(int n, float per_density, const float* lower, const float* upper, float* solids);

/// Needs per_half. Returns the largest shear. `solids` is the depth (m) of all solids in the film, gum kg/m²; left[0]
/// is the face left of cell 0.
struct DragRow {
    const float *solids, *gum_lower, *gum_upper, *left, *above, *below;
    float viscosity_Pa_s;
};
float film_drag_row(int n, DragRow, FilmRow);

struct PigmentRow {
    float *lower, *upper, *loose, *bound, *inside;
};
/// `stirs`: some of the shear lifts this pigment; where none does, false gives the same and costs less.
void pigment_row(int n, FilmRow, const GrainMotion&, float dt_s, bool stirs, PigmentRow);

/// Whether a shear lifts a pigment.
bool lifts(const GrainMotion&, float shear_Pa);

/// Gum is dissolved: it goes where the water goes, evens out between the halves, and is left where that is gone.
void gum_row(int n, FilmRow, float diffusivity_m2_s, float dt_s, float* lower, float* upper, float* bound);

} // namespace tidemark::pigment
