#include "water/film.h"

#include <cmath>

namespace tidemark::water {

FilmParams FilmParams::of(const materials::Paper& paper) {
    FilmParams p;
    p.held_m = paper.held_m;
    p.retention_depth_m = std::max(0.5 * paper.held_m, 1e-6);
    p.theta_advancing_rad = paper.theta_advancing_rad;
    p.theta_receding_rad = paper.theta_receding_rad;
    return p;
}

double FilmParams::capillary_length_m() const { return std::sqrt(gamma_N_m / (1000.0 * gravity_m_s2)); }

} // namespace tidemark::water
