/// What could be changed about a wish that was not met: small changes of one step each, in the plan's own keys.
///
///   time    the later wash sooner or later, to the moment at which it was found to give the wanted edge (moments.h); as
///           much of it by the wait of a step that it waits for, or by a drying that ended by the clock. Where no patch shows
///           its edge, two minutes either way
///   water   the later wash or the one it meets leaner or juicier; the wetting below with less or more water, or with the
///           back of the sheet wetted too, or only the front
///
/// Nothing is said of whether they help: each is to be tried.
#pragma once
#include "advice/moments.h"

#include <optional>

namespace tidemark::advice {

struct Lever {
    int want = -1;                ///< the wish it is for
    bool of_time = false;
    plan::Change change;
    Shift shift;                  ///< the same on a patch that is painted by the clock
    std::string text;             ///< "begin \"wall\" 2:10 later: wait 2:30 instead of 0:20"
    double size = 0;              ///< how much of a change: ten minutes, or half the water, count 1
    std::string keys() const;     ///< "wall.wait=2:30"
    bool of_start_of(const std::string& step) const { return change.step == step && (change.key == "wait" || change.key == "at"); }
};

/// For one wish. `base`: as planned, with its record.
std::vector<Lever> levers_for(const plan::Plan&, const Outcome& base, const sheet::Record&, const Timing&);

/// The later wash so many seconds sooner (below 0) or later; none: it has no wait to change by so much.
std::optional<Lever> begun_otherwise(const plan::Plan&, const Outcome& base, const sheet::Record&, const Timing&, double by_s);
/// How much sooner a step can begin by its own wait; 0 for one without.
double wait_of(const plan::Plan&, const Outcome& base, int step);

} // namespace tidemark::advice
