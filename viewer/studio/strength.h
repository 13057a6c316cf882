/// How light each act will dry by its plan, beside the reference there: at once, without a run (judge/strength.h).
#pragma once
#include "plan/plan.h"

#include <string>
#include <vector>

namespace tidemark::viewer {

struct DriesTo {
    int step = 0;
    double dry_L = 0, wet_L = 0;
    double reference_L = 0;  ///< NaN: nothing is compared
    std::string words;       ///< "dries about 6 lighter than the reference: 1.4 times the pigment would meet it"
};
std::vector<DriesTo> dries_to(const plan::Plan&); ///< some tenths of a second: not on the window's thread

} // namespace tidemark::viewer
