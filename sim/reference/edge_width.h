/// How soft the edge of a mass is in the picture: how wide the change from light to dark is, across the edge.
///
/// At pixels along its boundary (256 at most, evenly spread as one reads from the top left) the values are read across
/// the edge, along the normal: out of a disc of three pixels about the place, from what lies in the mass towards what
/// does not, within reach and as far as either goes on. A soft step is laid through them (step_fit.h): it finds its own
/// place, since squinting draws the mass's boundary beside a crooked edge, and its own two levels, since a texture's
/// lightest and darkest are not those of the sides. Where three even levels leave less than half of what the one step
/// leaves, there is another edge before or behind it, and the values end there: what changes again behind a hard edge does
/// not make it soft. The step's width is the place's, and the edge's width the median of its places. Values between pixels are interpolated (bilinear), so a hard step has 0.8 of a pixel.
/// Places whose step is below 2 L*, or explains less than half of how the values vary, tell nothing; where fewer than a
/// tenth of the places tell (a texture has steps by chance), the picture shows no edge (our choices).
#pragma once
#include "reference/masses.h"

#include <vector>

namespace tidemark::reference {

/// One a mass of `which`, in pixels; NaN where no place tells. Reach: in pixels, to either side; inside, no farther than
/// half of `across_pixels`, the mass's own width (one a mass of `which`).
std::vector<double> edge_widths(const Masses&, const ValueMap&, const std::vector<int>& which,
                                const std::vector<double>& across_pixels, double reach_pixels);

} // namespace tidemark::reference
