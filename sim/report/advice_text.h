/// What would mend the wishes, and when each wash can begin: for the terminal and as tables.
#pragma once
#include "judge/judge_run.h"
#include "plan/plan.h"

#include <string>

namespace tidemark::report {

/// Advice in its order, and a line for every wish that was not met or was met with little time to spare: less than a minute,
/// or than an eighth of the time that it has. Nothing when no wish was made; a hint when changes were not tried and a wish
/// was not met. Lines end in '\n'.
std::string advice_text(const plan::Plan&, const judge::Verdicts&);

/// rank,change,now,instead,vary
/// 1,"begin ""wall"" 2:10 later: wait 2:30 instead of 0:20","wall | sky comes out soft (6.1 mm), you wanted hard", ...
std::string advice_table(const std::vector<judge::Advice>&);

/// first,second,wanted,step,as_wanted,planned_min,earliest_min,latest_min,tried_from_min,tried_to_min,after,cell_mm,says
/// wall,sky,hard,wall,no,8.2,10.4,,3.1,33.1,sky,1,from 10:24 on
std::string moments_table(const plan::Plan&, const std::vector<judge::Moment>&);

} // namespace tidemark::report
