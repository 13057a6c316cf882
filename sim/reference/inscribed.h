/// How wide a mass is: the largest circle that lies inside it.
///
/// Distances are exact and Euclidean, from a pixel's middle to that of the nearest pixel of another mass; beyond the
/// picture's border all is another. Columns first, then the lower envelope of parabolas along each row, a run of one mass
/// at a time: pixels beyond the run's ends are farther than the ends (Felzenszwalb & Huttenlocher 2012, Theory of Computing
/// 8, 415; there for one shape). Work goes with the number of pixels.
#pragma once
#include "reference/masses.h"

#include <cstdint>
#include <vector>

namespace tidemark::reference {

/// Squared, in pixels; one a pixel, row by row. `label`: width × height, any numbers.
std::vector<std::int64_t> squared_to_others(const std::vector<int>& label, int width, int height);

struct Inscribed {
    double width_pixels = 0; ///< diameter: twice the distance less a pixel; a strip's width, or a pixel less of an even one
    int x = 0, y = 0;        ///< its middle: of equal ones that nearest the middle of the mass
};

/// One a mass.
std::vector<Inscribed> inscribed(const Masses&);

} // namespace tidemark::reference
