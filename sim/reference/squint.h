/// Half-closed eyes: detail goes, a few large masses stay.
///
/// The simplest thing that can honestly be called so: the values are blurred over a width given in millimetres on the
/// sheet, grouped, and masses smaller than a mark worth making join their neighbours. An edge keeps its place to
/// within the blur; corners are rounded by about as much.
#pragma once
#include "reference/masses.h"

#include <cstdint>

namespace tidemark::reference {

struct Squint {
    double blur_mm = 1.2;  ///< standard deviation; 0: none
    double crumb_mm2 = 40; ///< smaller masses join a neighbour; 0: all stay
};

/// Gaussian blur, kernel cut at 4 standard deviations, the picture mirrored at its borders: the mean is kept, a
/// constant stays that constant, a mirrored map gives the mirrored result.
ValueMap blurred(const ValueMap&, double sigma_pixels);

struct SquintResult {
    ValueMap seen; ///< the blurred values
    Groups groups; ///< thresholds from the blurred values; crumbs gone; means from the values before the blur
    Masses masses;
};
SquintResult squint(const ValueMap&, double pixels_per_mm, int groups, const Squint& = {});

} // namespace tidemark::reference
