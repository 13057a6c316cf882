/// The groups as masks that any picture editor can change.
///
/// One a group, the darkest first: how much of each pixel the group covers, smoothed over 3 × 3 pixels so that a boundary
/// is soft. Codes of 0 ... 255 that add to 255 in every pixel: what rounding leaves goes to the largest remainders, of
/// equal ones to the darker group.
#pragma once
#include "grid/picture.h"
#include "reference/groups.h"

#include <vector>

namespace tidemark::reference {

std::vector<grid::GreyPicture> group_masks(const Groups&);

} // namespace tidemark::reference
