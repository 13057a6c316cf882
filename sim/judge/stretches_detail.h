/// From a border to its stretches. Private to the room.
#pragma once
#include "judge/border_detail.h"
#include "judge/stretches.h"

#include <vector>

namespace tidemark::judge {

/// What is the same for all places of a border of one wash.
struct BorderOf {
    const plan::Plan& plan;
    const sheet::Record& record;
    const PaintedMap& map;
    int step = 0, own = 0;
    double outline_mm = 0; ///< all of the area's
};
std::vector<Stretch> stretches_of(const BorderOf&, const Border&, const EdgeRules&);

/// "top", "bottom right" ... by the mean of the normals; "all round" when they cancel out.
std::string side_of(const std::vector<const BorderPlace*>&);

/// Fills what the record says: met, laid and why.
void say_what_the_record_holds(const BorderOf&, int neighbour, const std::vector<const BorderPlace*>&, Stretch&);

} // namespace tidemark::judge
