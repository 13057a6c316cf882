/// The words of a draft: plan.toml with its comments.
#pragma once
#include "reference/draft.h"

#include <string>

namespace tidemark::reference {

constexpr double wash_pace_cm2_s = 6; ///< common practice
constexpr double wet_wash_pace_cm2_s = 20; ///< a large brush over wet paper: slower, each band runs before the next comes, and shows
double pace_cm2_s(const DraftPass&);
std::string area_name(const DraftPass&); ///< "first wash" -> "first-wash"; also the stem of its mask file
std::string soft_area_name(const DraftPass&); ///< "soft-beside-first-wash"
inline constexpr const char* small_lights_name = "small-lights";
std::string plan_text(const Draft&);

} // namespace tidemark::reference
