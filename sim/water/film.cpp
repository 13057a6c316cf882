#include "water/film.h"

#include "grid/within.h"

#include <cmath>
#include <numbers>

namespace tidemark::water {

FilmParams FilmParams::of(const materials::Paper& paper) {
    FilmParams p;
    p.held_m = paper.held_m;
    p.retention_depth_m = std::max(0.5 * paper.held_m, 1e-6);
    p.theta_advancing_rad = paper.theta_advancing_rad;
    p.theta_receding_rad = paper.theta_receding_rad;
    p.check();
    return p;
}

void FilmParams::check() const {
    using grid::within;
    within("nu_m2_s", nu_m2_s, {1e-13, 1e-2, "m²/s"});
    within("gamma_N_m", gamma_N_m, {0, 0.5, "N/m"});
    within("gravity_m_s2", gravity_m_s2, {0, 100, "m/s²"});
    within("held_m", held_m, {0, 1000, "µm", 1e-6});
    within("felt_permeability_m2", felt_permeability_m2, {0, 1e-9, "m²"});
    within("valley_share", valley_share, {0, 1});
    within("retention_m2_s2", retention_m2_s2, {0, 100, "m²/s²"});
    within("retention_depth_m", retention_depth_m, {0.1, 1000, "µm", 1e-6});
    within("theta_advancing_rad", theta_advancing_rad, {0, std::numbers::pi, "rad"});
    within("theta_receding_rad", theta_receding_rad, {0, theta_advancing_rad, "rad"});
    within("air_stress_x_Pa", air_stress_x_Pa, {-10, 10, "Pa"});
    within("air_stress_y_Pa", air_stress_y_Pa, {-10, 10, "Pa"});
    within("tolerance_m", tolerance_m, {0, 1, "m"});
    within("refused_m", refused_m, {0, 1, "m"});
    within("cycles_max", cycles_max, {0, 1000});
}

double FilmParams::capillary_length_m() const { return std::sqrt(gamma_N_m / (1000.0 * gravity_m_s2)); }

} // namespace tidemark::water
