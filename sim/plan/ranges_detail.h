/// Ranges of water and pace in a plan, for the readers and for what changes a plan that was read (another_day.h).
#pragma once
#include "plan/keys_detail.h"

namespace tidemark::plan {

inline const Range wet_water{10, 600, "g/m²"}, wet_pace{0.5, 200, "cm²/s"};
inline const Range wash_film{10, 600, "µm"}, hand_pace{0.5, 100, "cm²/s"};
inline const Range spray_water{1, 300, "g/m²"};
inline const Range drybrush_film{5, 150, "µm"};
inline const Range soften_water{5, 200, "g/m²"}, soften_speed{0.2, 50, "cm/s"};
inline const Range body_paint{5, 400, "g/m²"};

} // namespace tidemark::plan
