/// A plan's timetable without a run: when each act is due, when it begins and how long it keeps the hand.
///
/// Every wait for a stage counts as nothing, so that times after one are earliest times. How long an act takes is
/// asked of one who knows the ways of the hand (hand/trial.h).
///
/// The hand's acts clash when one is due while the hand is still busy with another: it then begins later than its plan
/// says. What waits for the sheet takes the hand nobody knows when, so that nothing is told of what is due after it.
#pragma once
#include "plan/plan.h"

#include <functional>
#include <vector>

namespace tidemark::plan {

struct Busy {
    double seconds = 0;      ///< the hand's, pauses included
    int refills = 0;
    double refilling_s = 0;  ///< of these seconds, pauses to fill the brush
};
using BusyOf = std::function<Busy(int step)>; ///< asked once of every act, in the order of the timetable

struct NominalTime {
    double due_s = 0;               ///< its own time, or the end of the wait after the step that it follows
    double start_s = 0, end_s = 0;  ///< of a dry step without a stage to wait for, the end of its longest wait
    Busy busy;
    bool waits_for_stage = false;   ///< its own start or, for a dry step, its end waits for a stage
    bool start_is_earliest = false; ///< a wait for a stage, its own or of a step that it follows, may move it
};

struct Timetable {
    std::vector<NominalTime> times; ///< by step, in the order of the file
    std::vector<int> order;         ///< step indices by start
};
Timetable timetable(const Plan&, const BusyOf&);

struct Clash {
    int step = 0;
    std::vector<int> hand_has; ///< from the moment that it is due until it begins, by time; at most the first eight
    int more = 0;              ///< and so many others
};
struct Clashes {
    std::vector<Clash> certain; ///< by time
    int first_uncertain = -1;   ///< the first act of the hand that hangs on a wait for a stage; -1: none
};
Clashes clashes(const Timetable&);

} // namespace tidemark::plan
