/// What half-closed eyes no longer resolve goes; the edges of what is larger stay where they are.
///
/// Rolling guidance (Zhang, Shen, Xu & Jia 2014, ECCV): the map is blurred with a standard deviation of half the width, so
/// that nothing narrower is left; then, four times over, the map is filtered with the last result as its guide. A guide
/// in which a thing is missing does not bring it back, one in which a large edge is blurred brings it back sharp. The
/// filter is the guided one (He, Sun & Tang 2013, IEEE TPAMI 35, 1397): in windows as wide to either side as the width the
/// map is taken as a straight line of the guide. Steps well above `keeps_lstar` are kept, those well below are evened out.
///
/// Sums over windows are of whole numbers (1/1024 L*), so that a mirrored map gives the mirrored result, to the last bit,
/// and any number of threads the same.
#pragma once
#include "reference/value_map.h"

namespace tidemark::reference {

constexpr double keeps_lstar = 5;
constexpr int rolls = 4;

/// A width of 0 or less changes nothing.
ValueMap simplified(const ValueMap&, double width_pixels);

} // namespace tidemark::reference
