/// The picture in the key of the sheet.
///
/// A photograph holds values that no paint reaches: a shadow of L* 5, where the darkest wash dries to 27, for its gum
/// reflects as much (colour/layer.h). A painter moves all values up so that the steps between them stay (common
/// practice): the picture's own darkest and lightest, its percentiles of 0.5 and 99.5, are moved into what a wash and the
/// paper give, straight in L* between them. Nothing is moved that lies within already. a* and b* stay; what no screen
/// shows is clipped.
#pragma once
#include "grid/picture.h"

namespace tidemark::reference {

constexpr double darkest_wash_lstar = 30;  ///< a mix of a blue and a brown as strong as it goes on in one wash, and a little
constexpr double least_lightest_lstar = 80; ///< in a lower key three values lie closer than a wash can be judged

struct Key {
    double from_dark = 0, from_light = 100; ///< L* of the picture's own ends
    double to_dark = 0, to_light = 100;     ///< where they go
    bool moves() const { return to_dark != from_dark || to_light != from_light; }
    double at(double lstar) const; ///< clamped to 0 ... 100; a flat picture's one value is moved as far as it must
};

Key key_of(const grid::Picture&);
grid::Picture in_key(const grid::Picture&, const Key&);

} // namespace tidemark::reference
