/// Bridges between pieces that are known already. Private to the room.
#pragma once
#include "reference/connected.h"

namespace tidemark::reference {

/// Of `c` it reads piece_of, pieces and area_mm2.
std::vector<Bridge> bridges_between(const Masses&, const Connected& c, double pixels_per_mm, const Connecting&);

} // namespace tidemark::reference
