/// What `check` says of how dark each mix dries: a table, at most 100 columns wide unless names are long.
#pragma once
#include <string>
#include <vector>

#include "judge/strength.h"

namespace tidemark::cli {

/// Empty when nothing lays pigment.
std::string strength_lines(const plan::Plan&, const std::vector<judge::Strength>&);

} // namespace tidemark::cli
