/// The patch on which it is tried how long the edge of a wash joins.
#pragma once
#include <string>

#include "materials/presets.h"
#include "rehearsal/open_time.h"

namespace tidemark::cli {

/// Of the presets' paper, room and pigment. Errors: BadInput naming what the presets don't have; `mark` "--" when a painter
/// has named it in an option.
rehearsal::OpenPatch open_patch(const materials::Presets&, const std::string& paper, const std::string& room,
                                const std::string& pigment, const std::string& mark = {});

} // namespace tidemark::cli
