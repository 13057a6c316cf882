/// Which cautions concern a plan.
#pragma once
#include "materials/cautions.h"
#include "plan/plan.h"

namespace tidemark::report {

/// Those for its pigments of level medium or high, and for warm air, in the table's order; `everyday`: those of any plan
/// and for sun on the sheet as well.
std::vector<materials::Caution>
cautions_for(const plan::Plan&, const std::vector<materials::Caution>&, bool everyday = false);

constexpr const char* who_decides = "The label, the safety sheet and local rules decide.";

} // namespace tidemark::report
