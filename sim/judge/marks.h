/// Laps, blooms and runs on the finished sheet: where, how large, and which act at which minute made them.
///
/// The record says where one may be (candidates), L* whether it is there.
///
///   lap    a wash came back to its own edge: to a cell that had no film left, or that it had laid `back_after_s`
///   before.
///          L* is read across such lines, averaged over 10 mm of them, both sides carried on to the line with their
///          trends (transition.h): a dark line within 3 mm, or a step at most 5 mm wide. Reported from `lap_from_mm`
///          on.
///   bloom  an act brought water to moist or damp paper that had paint on it. Within its reach, of one and the same
///   set of
///          painted areas, L* less a plane through the rest: a pale patch at least `bloom_from_mm` across, with a
///          darker rim within 8 mm along a third of its way round or more.
///   run    paint on paper that no act touched and no painted area covers, `run_from_mm` or more beyond them; and an
///   edge
///          that lies as far inside a neighbour along three quarters of a stretch, and farther than it is wide.
///
/// A mark counts when it is as many L* off as the rules say and more than the grain: `grains` standard deviations
/// (1.4826 × median absolute deviation) of the same reading where there is no mark.
///
/// Range   cells of 0.1 to 4 mm; nothing is found that is narrower than two cells. Left out: laps over which another
/// edge
///         runs, blooms of water that came back by itself from a bead, runs on paper that was wetted. Rules in mm
///         0.01 to 1000, L* 0 to 100, grains 0 to 100, seconds 0 to 1e5, else refused (grid/within.h). The limits are
///         this program's own.
#pragma once
#include "judge/edges.h"

#include <string>
#include <vector>

namespace tidemark::judge {

enum class MarkKind { lap, bloom, run };
const char* word(MarkKind);

struct MarkRules {
    double lap_from_mm = 10, lap_line_L = 2, lap_step_L = 3, back_after_s = 20;
    double bloom_from_mm = 3, bloom_pale_L = 1, bloom_rim_L = 1;
    double run_from_mm = 3, run_dark_L = 3;
    double grains = 4;
};

struct Mark {
    MarkKind kind = MarkKind::lap;
    int step = 0;      ///< the act that made it
    std::string area;  ///< of that act
    double minute = 0; ///< when the hand was there, on the plan's clock
    double x_mm = 0, y_mm = 0;
    double size_mm = 0; ///< length of a lap, breadth of a bloom with its rim, how far a run went
    double dark_L = 0;  ///< of line or step, rim, run: how much darker than what is beside it
    double pale_L = 0;  ///< of a bloom's middle: how much paler
    std::string met;    ///< of a bloom: stage that most of the water met
    std::string text;   ///< "a bloom 14 mm across at 120, 80 mm: \"drop\" at 9:30 met moist paper"
};

/// `lstar`: of the dried sheet, at least nx × ny; `edges` as judge_edges() gave them. Laps, blooms, runs, each by
/// act.
std::vector<Mark> find_marks(const plan::Plan&,
                             const sheet::Record&,
                             const grid::Field<float>& lstar,
                             const sheet::Geometry&,
                             const std::vector<Edge>& edges,
                             const MarkRules& = {});

} // namespace tidemark::judge
