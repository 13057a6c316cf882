/// What a finished run leaves behind.
///
///   sheet.png          as it is, or will be, when dry; at the sheet's size
///   sheet-wet.png      as it looks now; only when the run stopped before it was dry
///   value-compare.png  reference and sheet in the same value groups, and where they differ; only with a reference
///   edges.csv stretches.csv marks.csv windows.csv values.csv mixes.csv brushes.csv record.csv
///   ledger.csv
///   advice.csv moments.csv  only when changes were tried: write_advice()
///   report.html        all of it to read and to print (page.h); write_page()
///   frames/            one picture for every call of write_frame()
///
/// All go into an OutputFolder; nothing is in place before its commit(). Judging and drawing read the record and the
/// sheet, never change them, and print nothing. Errors: IoError from the folder.
#pragma once
#include "grid/files.h"
#include "judge/judge_run.h"
#include "materials/cautions.h"
#include "plan/plan.h"
#include "report/page.h"
#include "sheet/look.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::report {

struct Inputs {
    const plan::Plan& plan;
    const sheet::SheetState& sheet;
    const sheet::Record& record;
    bool finished_dry = true;
    std::vector<materials::Brush> brushes{}; ///< for brushes.csv: those that the plan might use
};

/// All but report.html. `dried`: the sheet's look as it will be when dry. Returns the verdicts, so that nobody need judge
/// again.
judge::Verdicts write_outputs(const Inputs&, const sheet::Look& dried, grid::OutputFolder&);
judge::Verdicts write_outputs(const Inputs&, grid::OutputFolder&); ///< looks itself
/// The same of a run that has been judged, whose sheet is no longer at hand: without sheet-wet.png.
void write_judged(const plan::Plan&, const sheet::Record&, const judge::Verdicts&, const sheet::Look& dried, const sheet::Geometry&,
                  const std::vector<materials::Brush>&, grid::OutputFolder&);

/// What was tried besides; the verdicts hold advice.
void write_advice(const plan::Plan&, const judge::Verdicts&, grid::OutputFolder&);

/// report.html, of verdicts that may hold advice by now. `wet`: how the sheet looked; none: not shown.
void write_page(const Inputs&, const judge::Verdicts&, const sheet::Look& dried, const std::optional<WetSheet>& wet,
                const std::vector<materials::Caution>&, grid::OutputFolder&);

/// sheet.png, or sheet-wet.png: the bytes of the sheet as it will be when dry, or as it looks now.
std::vector<std::uint8_t> sheet_picture(const sheet::SheetState&, sheet::LookAs);

/// "frames/0007m30s.png": in the order of time in any listing.
std::string frame_name(double time_s);
/// The sheet as it looks at its present time, half the resolution of sheet.png.
void write_frame(const sheet::SheetState&, grid::OutputFolder&);

/// A short plain text for a terminal: when what dried, edges wanted and found, marks, values, mixes, warnings of the run,
/// and cautions for pigments of level medium or high and for warm air. Lines end in '\n'.
std::string summary(const Inputs&, const judge::Verdicts&, const std::vector<materials::Caution>&);
/// The same, judged anew, with the cautions of the presets' folder. Errors: as read_cautions().
std::string summary(const Inputs&);

} // namespace tidemark::report
