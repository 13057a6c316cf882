/// Profiles across an edge, measured together: what a stretch of outline is like. Private to the room.
///
/// Width, levels and rim are read off one profile: the mean of all, each laid with its edge at 0, so that noise has
/// evened out before anything nonlinear is done to it, and a wandering edge is not taken for a soft one. Where an
/// edge lies on one profile is uncertain by noise as well: places are the running median of five neighbours.
///
/// Reading a grid of cells bilinearly blurs a profile by h²/6 of variance along any direction (h: the cell's side),
/// and variances add up: width² = read² - (2.5631 h)²/6. Below two cells a width can't be told from none.
#pragma once
#include "judge/edges.h"
#include "judge/transition.h"

#include <vector>

namespace tidemark::judge {

/// One place of an outline.
struct Across {
    Profile profile;
    Transition transition; ///< of that profile alone
};
constexpr std::size_t least_samples = 4; ///< a shorter profile is not measured

struct Measured {
    double width_mm = 0, shift_mm = 0;               ///< of the mean; NaN: no contrast to measure
    double median_width_mm = 0, median_shift_mm = 0; ///< over the places: for an edge that is not alike all along
    double surely_mm = 0; ///< three quarters of the places are shifted as far or farther; NaN without an edge
    double delta_L = 0, inside_L = 0, outside_L = 0; ///< medians
    double rim_L = 0, rim_mm = 0;                    ///< height ≥ 0, and width at half of it
};
/// In the order along the outline; those too short to be measured are passed over.
Measured measure_together(const std::vector<const Across*>&, double cell_mm, const EdgeRules&);

/// What a width read off a grid of cells would be without the reading's blur, ≥ 0.
double without_reading_blur_mm(double read_mm, double cell_mm);

/// The mean of several profiles, each laid with `at_mm` at 0, wherever half of them reach.
Profile aligned_mean(const std::vector<const Across*>&, const std::vector<double>& at_mm);

/// The dark line just inside an edge, on a profile that has the edge at 0.
struct Rim {
    double at_mm = 0;    ///< where it is darkest
    double height_L = 0; ///< darker than the darker of the two sides, ≥ 0
    double width_mm = 0; ///< at half of that; up to the edge where it ends at it
};
/// Mean L* within a quarter of a millimetre of a place; NaN where the profile does not reach.
double lstar_near(const Profile&, double at_mm);
Rim rim_of(const Profile&, const Transition&, double reach_mm, double mask_mm);

} // namespace tidemark::judge
