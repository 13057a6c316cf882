/// The words of a draft: plan.toml with its comments.
#pragma once
#include "reference/draft.h"

#include <string>

namespace tidemark::reference {

constexpr double wash_pace_cm2_s = 8; ///< common practice
std::string area_name(const DraftPass&); ///< "first wash" -> "first-wash"; also the stem of its mask file
std::string plan_text(const Draft&, const std::string& picture_name);

} // namespace tidemark::reference
