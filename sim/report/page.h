/// report.html: a run on two printed pages, in one file that needs nothing else.
///
///   page 1   the cue sheet, to hang beside the board: acts by the minute with mixes, what to watch for and ribbons of
///            stages; what to mix; cautions
///   page 2   pictures, each with its words; edges wanted and found, and why; values, marks, warnings, advice
///
/// Every picture is inside. No script, no link. Printed, each page fits A4 and Letter: the more it holds, the smaller its
/// letters, down to 6 points (type_size.h); what is too long even then goes on to another page. On a narrow screen the
/// rows of tables become blocks. The same run gives the same bytes.
#pragma once
#include "judge/judge_run.h"
#include "materials/cautions.h"
#include "plan/plan.h"
#include "sheet/look.h"
#include "sheet/record.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::report {

/// The sheet as it looked while it was wet.
struct WetSheet {
    grid::Picture picture; ///< one pixel a cell
    double time_s = 0;
    double wet_share = 0; ///< 0 ... 1 of it under a film
};

struct PageInputs {
    const plan::Plan& plan;
    const sheet::Record& record;
    const judge::Verdicts& verdicts;
    const sheet::Look& dried;
    const std::optional<WetSheet>& wet; ///< none: left out
    const std::vector<materials::Caution>& cautions; ///< of the presets; those that concern the plan are shown
};

std::string page_text(const PageInputs&);

} // namespace tidemark::report
