/// How much thicker than water the film is, cell by cell.
///
///   crowding   (1 - φ/0.6)^-1.5            φ solid volume fraction of all pigments, at most 0.57
///   gum        1 + 0.0145 c + 1.5e-4 c²    c gum, kg/m³ of film, at most 700
///
/// Krieger & Dougherty 1959 with a packing of 0.6, exponent 2.5 × 0.6, so that dilute mixes keep Einstein's
/// slope 2.5. Gum: Huggins' form; 14.5 mL/g is an intrinsic viscosity of gum arabic, the second coefficient fits
/// washes of 3, 8 and 20 % pigment with 0.6 g of gum a gram that run at 1.35, 2.3 and 9 mPa s (all from memory;
/// within 7 %).
/// Range   Krieger & Dougherty to φ of 0.57; more counts as that. Gum to 700 kg/m³, more counts as that; the fit ends at
///         some 150. Newtonian: a mix of more than a third of pigment would have a yield stress.
#pragma once
#include "sheet/sheet_state.h"

#include <cmath>

namespace tidemark::pigment {

inline float crowding(float solid_fraction) {
    const float y = 1.0f - (solid_fraction < 0.57f ? solid_fraction : 0.57f) * (1.0f / 0.6f);
    return 1.0f / (y * std::sqrt(y));
}
inline float gum_thickening(float gum_kg_m3) {
    const float c = gum_kg_m3 < 700.0f ? gum_kg_m3 : 700.0f;
    return 1.0f + c * (0.0145f + 1.5e-4f * c);
}

/// Factor (>= 1) on water's kinematic viscosity; 1 where there is no film. Only film_tiles are written: a `nu_factor`
/// of another size is first made to fit and filled with 1.
void film_viscosity(const sheet::SheetState&, grid::Field<float>& nu_factor);

} // namespace tidemark::pigment
