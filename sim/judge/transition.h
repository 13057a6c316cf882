/// How L* goes from one side of an edge to the other, measured on a profile across it.
///
///   u = (L* - inside) / (outside - inside),  width = distance from u = 0.1 to u = 0.9
///
/// Inside and outside are the plateaus beyond the rim, with their trends carried on to the edge, so that a graded
/// wash can end in a hard edge. The profile is made monotone by least squares (pool adjacent violators: Ayer, Brunk,
/// Ewing, Reid & Silverman 1955): granulation is averaged out where it contradicts the edge, a smooth edge is left as
/// it is, and nothing is blurred. The crossings are interpolated between samples. A rim belongs to neither side: it
/// is pooled with the plateau that it sits on. An edge is looked for within 10 mm of the outline (of a
/// thinner shape: as far as it is thick, 3 mm at least), so one that has run past the mask is found where it is.
#pragma once
#include <vector>

namespace tidemark::judge {

/// L* at from_mm, from_mm + step_mm, ... across an edge: negative inside the area, positive outside.
struct Profile {
    double from_mm = 0, step_mm = 0.1; ///< steps above 0
    std::vector<float> lstar;          ///< 0 ... 100
    double at_mm(std::size_t k) const { return from_mm + step_mm * static_cast<double>(k); }
};

struct TransitionRules {
    double rim_reach_mm = 3;     ///< a rim lies within this distance of the edge
    double plateau_mm = 8;       ///< at most so much of each side is read as its plateau
    double least_contrast_L = 1; ///< below it there is no edge to measure: width is NaN
};

struct Transition {
    double inside_L = 0, outside_L = 0; ///< plateaus, carried on to the edge
    double width_mm = 0;                ///< 10-90 %; NaN: no edge to measure
    double at_mm = 0;                   ///< where a step would fit best; 0 without an edge
    double inner_mm = 0, outer_mm = 0;  ///< where u is 0.1 and 0.9
};

/// The profile must begin at or below 0 and end at or above it, with at least four samples.
Transition measure_transition(const Profile&, const TransitionRules& = {});

/// Non-decreasing least-squares fit.
std::vector<double> monotone_fit(const std::vector<double>&);

} // namespace tidemark::judge
