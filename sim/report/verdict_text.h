/// Words for verdicts, the same on the terminal and in report.html.
#pragma once
#include "judge/judge_run.h"

#include <string>
#include <vector>

namespace tidemark::report {

/// "soft, 6.1 mm": of an edge or a stretch; without a width where the sides are too alike to have one.
std::string edge_text(const std::string& word, double width_mm, double delta_L);

/// "82 % of the sheet in the reference's group (weighted kappa 0.79)"; empty without a reference.
std::string agreement_text(const judge::Values&);

/// The most telling first; a wash that failed all over has dozens.
std::vector<const judge::Mark*> plainest(const std::vector<judge::Mark>&);

} // namespace tidemark::report
