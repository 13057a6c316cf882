/// Everything that happened, by minute: what the hand began and ended, what it waited for, what each area turned into.
#pragma once
#include "plan/plan.h"
#include "sheet/record.h"

#include <string>

namespace tidemark::report {

/// time_min,time,event,step,area,water_mL,pigment_g,waited_min
/// 0.75,0:45,begins: wash,wall,background,,,
/// 1.13,1:08,ends: wash,wall,background,4.97,0.0994,
/// 12.5,12:30,moist,,background,,,                 (the stage that enough of the area has reached, sheet::stage_share)
///
/// `waited_min` stands in the row of the beginning, for a stage that was waited for; "begins: wash (gave up waiting)"
/// when the longest wait ran out. In the order of time; at the same time acts come before stages.
std::string record_table(const plan::Plan&, const sheet::Record&);

} // namespace tidemark::report
