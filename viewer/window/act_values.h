/// What can be turned by hand in an act or in its mix: which key of the plan it is, and in a painter's words.
#pragma once
#include <string>
#include <vector>

#include "plan/plan.h"

namespace tidemark::viewer {

struct ActValue {
    std::string where, key;  ///< as Document::set has them
    std::string label, unit; ///< "water laid", "µm"
    double value = 0;        ///< in that unit
    double lowest = 0, highest = 1, step = 1; ///< within what the plan's readers take
    int decimals = 0;
};
std::vector<ActValue> act_values(const plan::Plan&, int step);

/// As it is written into a plan: with those decimals, no more zeros than needed.
std::string value_text(double value, int decimals);

} // namespace tidemark::viewer
