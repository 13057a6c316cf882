/// What the hand does in a step, as one would say it to the painter beside the board: "30 drops of 1.5 µL into near-light".
#pragma once
#include "plan/plan.h"

#include <string>

namespace tidemark::report {

std::string act_text(const plan::Plan&, const plan::Step&);

/// "the whole sheet", or the area's name.
std::string place_text(const plan::Plan&, int area);

/// Of a mix that a step lays: its name, "clean water" where none is named, empty where nothing is laid.
std::string mix_text(const plan::Plan&, const plan::Step&);

} // namespace tidemark::report
