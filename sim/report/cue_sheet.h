/// What hangs beside the board: every act with its minutes, its mix, what to watch for and how the paper dries.
///
/// Made of what happened in the run: times on the plan's clock, water as the sheet took it. A ribbon's stages are the
/// windows of the act (judge/windows.h), each from its own minute to that of the next, up to the next act at the same
/// place or the end of the run. Steps that a stopped run did not come to stand at the end, without minutes.
#pragma once
#include "judge/judge_run.h"
#include "materials/cautions.h"
#include "plan/plan.h"
#include "sheet/record.h"

#include <string>
#include <vector>

namespace tidemark::report {

struct StageSpan {
    plan::Stage stage = plan::Stage::wet;
    double from_min = 0, to_min = 0;
};

struct Cue {
    int step = 0;
    double from_min = 0, to_min = 0; ///< the hand is at it, or the wait lasts; NaN: not played
    std::string name, doing;         ///< of the step; act_text.h
    std::string mix;                 ///< empty: nothing is laid
    double laid_mL = 0;
    int brush_loads = 0;
    std::string watch;               ///< "sheen goes 4:10, damp 6:02, dry 12:30"
    bool waits = false;              ///< a dry step: nobody paints
    std::vector<StageSpan> ribbon;
};

struct CueSheet {
    std::string title;     ///< of the plan: its file's name, or its folder's when it is called plan.toml
    std::string set_up;    ///< sheet, paper, board, room
    std::string outcome;   ///< "Dry at 45:10", or where it stopped
    double end_min = 0;
    std::vector<Cue> cues; ///< as they were played
    std::vector<judge::MixAmount> mixes;
    std::vector<materials::Caution> cautions;
};

CueSheet cue_sheet(const plan::Plan&, const sheet::Record&, const judge::Verdicts&, const std::vector<materials::Caution>&);

} // namespace tidemark::report
