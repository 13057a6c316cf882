/// Edges wanted and found, for report.html: what is not as wanted comes first, with each of its stretches.
#pragma once
#include "judge/judge_run.h"
#include "report/page_table.h"

namespace tidemark::report {

/// One row a wish; without any wish, the longest edges that were found.
PageTable edge_table(const plan::Plan&, const judge::Verdicts&);

/// "3 of 4 as wanted, 1 not judged"; empty without a wish.
std::string wishes_text(const judge::Verdicts&);

} // namespace tidemark::report
