/// How soft the edge of a mass is in the picture: how wide the change from light to dark is, across the edge.
///
/// At pixels along its boundary (256 at most, evenly spread as one reads from the top left) the values are read across
/// the edge, along the normal: out of a disc of three pixels about the place, from what lies in the mass towards what
/// does not. Inside, the lightest value within reach is the light; outside, the darkest is the dark; the width is the
/// way from nine tenths of the step between them to one tenth, going outwards from the lightest. The edge's width is the
/// median of its places. Values between pixels are interpolated (bilinear), so a hard step has 0.8 of a pixel.
/// Places at the picture's border, and steps below 2 L*, tell nothing and are passed over.
#pragma once
#include "reference/masses.h"

#include <vector>

namespace tidemark::reference {

/// One a mass of `which`, in pixels; NaN where no place tells. Reach: in pixels, to either side; inside, no farther than
/// half of `across_pixels`, the mass's own width (one a mass of `which`).
std::vector<double> edge_widths(const Masses&, const ValueMap&, const std::vector<int>& which,
                                const std::vector<double>& across_pixels, double reach_pixels);

} // namespace tidemark::reference
