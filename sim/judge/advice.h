/// What would mend a wish that was not met, tried before it is said.
#pragma once
#include <string>

namespace tidemark::judge {

/// One change to the plan that was run and came nearer to what was wanted.
struct Advice {
    std::string change;   ///< what to do: "begin 'wall' 2:10 later"
    std::string found;    ///< what is wrong now: "its edge to sky comes out soft (6.1 mm), you wanted firm"
    std::string instead;  ///< what the trial gave: "firm, 1.4 mm"
    double weight = 0;    ///< how much it mends, for the order; larger first
};

} // namespace tidemark::judge
