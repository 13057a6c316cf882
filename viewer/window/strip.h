/// What the minute line shows: for every mass that the hand comes to, its stages over time, and the acts on it.
///
/// Gathered from the run that knows more of each minute: the true one as far as it has come, the draft beyond, and what
/// the strip showed before where neither has come yet, so that nothing jumps while a change is being played.
#pragma once
#include <memory>
#include <string>
#include <vector>

#include "viewer/studio/run.h"

namespace tidemark::viewer {

struct StripAct {
    int step = 0;
    double start_s = 0, end_s = 0, waited_s = 0;
    std::string name, verb, waited_for;
    bool played = true; ///< false: from a run before
};

struct StripSpan {
    double from_s = 0, to_s = 0;
    int stage = 3; ///< sheet::CellStage
};

struct StripRow {
    int area = -1;
    std::string name;
    std::vector<StripAct> acts;
    std::vector<StripSpan> spans;
};

struct Strip {
    std::vector<StripRow> rows; ///< by the first act
    double end_s = 60;          ///< of the axis: the last act, and until its water is gone
    double reached_s = 0;       ///< as far as something can be looked at
    double true_s = 0;          ///< as far as the true cells have come
    const StripAct* act(int step) const;
    /// The acts by their beginnings.
    std::vector<const StripAct*> in_order() const;
};

Strip gather(const plan::Plan&, const Run* draft, const Run* truth, const Strip& before);

/// Minutes between the marks of an axis this long, at most `marks` of them: 1, 2, 5, 10, 15, 30, 60, then whole hours.
double axis_step_min(double end_s, double marks);
std::string clock_text(double s); ///< as in plans: "7:40", "95:00"

} // namespace tidemark::viewer
