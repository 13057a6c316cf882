/// Half-closed eyes: detail goes, a few large masses stay.
///
/// Widths in millimetres on the sheet. What is too fine to matter is blurred to its mean; what half-closed eyes no longer
/// resolve goes, while the edges of what is larger stay (simplify.h); the rest is grouped, by the best cuts or by the
/// painter's; then every pixel takes the group that most of its surroundings have (near ones counting more), so that
/// neither speckle nor the half-tone seam of a blurred edge stays; then masses smaller than a mark worth making join their
/// neighbours. An edge keeps its place; corners are rounded by about half the vote's width.
///
/// Thin shapes, if they are to stay: what the vote took away that is thin_from_mm long or longer, at least
/// `thin_slender` times its width (length² / area), and stands out by thin_contrast_L (our choices).
#pragma once
#include "reference/masses.h"

#include <cstdint>
#include <vector>

namespace tidemark::reference {

struct Point {
    double x_mm = 0, y_mm = 0; ///< from the sheet's top left
};

constexpr double thin_from_mm = 8, thin_slender = 5, thin_contrast_L = 6;

/// Range: widths 0 to 100 mm, crumbs 0 to 1e6 mm², 0.001 to 1000 pixels a mm, else refused (grid/within.h).
struct Squint {
    double blur_mm = 0.3;  ///< of the values before grouping, standard deviation; 0: none
    double vote_mm = 1.2;  ///< of the vote on the group, standard deviation; 0: none
    double crumb_mm2 = 40; ///< smaller masses join a neighbour; 0: all stay
    double simplify_mm = 0; ///< what is narrower goes, edges of what is wider stay (simplify.h); 0: none
    std::vector<float> thresholds{}; ///< by hand, rising L*; empty: the best cuts
    bool keep_thin = false;          ///< a rope or a post stays, though the vote would take it
    std::vector<Point> keep{};       ///< lights that stay, however small, by a point inside each; 0 to the sheet's size
};

/// Gaussian blur, kernel cut at 4 standard deviations, the picture mirrored at its borders: the mean is kept, a
/// constant stays that constant, a mirrored map gives the mirrored result. A deviation of 0 or less blurs nothing.
ValueMap blurred(const ValueMap&, double sigma_pixels);

/// The group with the largest Gaussian-weighted share around each pixel; of equal shares the darkest. Thresholds
/// stay; counts and means (of `map`) are new.
Groups voted(const Groups&, const ValueMap& map, double sigma_pixels);

struct SquintResult {
    ValueMap seen; ///< the blurred values
    Groups groups; ///< thresholds from the blurred values; crumbs gone; means from the values before the blur
    Masses masses;
    std::vector<Joined> joined; ///< crumbs, in the order in which they went
};
/// Errors: BadInput for a light to be kept that is none, or lies beyond the sheet. Thresholds as for group_with().
SquintResult squint(const ValueMap&, double pixels_per_mm, int groups, const Squint& = {});

} // namespace tidemark::reference
