/// One side of an edge, beyond its rim: a level and a trend.
///
/// A graded wash goes on grading towards its edge, so its plateau is carried on to the edge along a straight line:
/// the median of the slopes between pairs of samples (Theil 1950, Sen 1968), less what the noise of the samples can
/// explain (twice the slope's standard error, from the spread of the residuals), so that an even, granulating wash
/// keeps slope 0. No slope is read off less than 4 mm.
#pragma once
#include "judge/transition.h"

namespace tidemark::judge {

struct Plateau {
    double level_L = 0, centre_mm = 0, slope_L_mm = 0;
    double at(double s_mm) const { return level_L + slope_L_mm * (s_mm - centre_mm); }
};
/// Of the samples between two places; of the whole profile when there are none.
Plateau read_plateau(const Profile&, double from_mm, double to_mm, bool with_slope);

} // namespace tidemark::judge
