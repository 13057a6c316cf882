#include "pigment/hold.h"

#include <cmath>
#include <numbers>

namespace tidemark::pigment {

double inside_share(const materials::Pigment& p) {
    const double spread = std::hypot(std::log(p.gsd), std::log(pore_gsd));
    return 0.5 * std::erfc(std::log(floc_diameter_m(p) / pore_m) / (spread * std::numbers::sqrt2));
}

} // namespace tidemark::pigment
