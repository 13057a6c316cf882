#include "pigment/stir.h"

#include "pigment/hold.h"

#include <algorithm>
#include <cmath>

namespace tidemark::pigment {

double stir_threshold_Pa(const materials::Pigment& p, double temperature_K) {
    const double excess = floc_solid_share * (p.density_kg_m3 - water_density_kg_m3(temperature_K));
    return cohesion_Pa + shields_number * std::max(0.0, excess) * gravity_m_s2 * floc_diameter_m(p);
}

namespace {
/// Towards equal halves; `strength` 1 makes them equal.
void mix(float& lower, float& upper, float strength) {
    const float shift = 0.5f * strength * (upper - lower);
    if (shift > 0)
        pass_on(upper, lower, shift);
    else
        pass_on(lower, upper, -shift);
}
} // namespace

void stir_cell(sheet::SheetState& s, int i, int j, double strength) {
    if (s.film_m(i, j) < no_film_m)
        return;
    const float share = static_cast<float>(std::clamp(strength, 0.0, 1.0));
    for (auto& p : s.pigments) {
        pass_on(p.loose(i, j), p.afloat_lower(i, j), share * p.loose(i, j));
        mix(p.afloat_lower(i, j), p.afloat_upper(i, j), share);
    }
    mix(s.gum_lower_kg_m2(i, j), s.gum_upper_kg_m2(i, j), share);
}

} // namespace tidemark::pigment
