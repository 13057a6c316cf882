/// What would mend a wish that was not met, and when each wash can go on, both tried before they are said.
#pragma once
#include <string>
#include <vector>

namespace tidemark::judge {

/// One change to the plan that was run and came nearer to what was wanted.
struct Advice {
    std::string change;  ///< what to do: "begin \"wall\" 2:10 later: wait 2:30 instead of 0:20"
    std::string found;   ///< what is wrong now: "wall | sky comes out soft (6.1 mm), you wanted hard"
    std::string instead; ///< what the trial gave: "hard (0.8 mm); 4 of 4 edges as wanted instead of 2"
    std::string keys;    ///< the same for the plan, as `ask --vary` takes it: "wall.wait=2:30"
    double weight = 0;   ///< how much it mends, for the order; larger first
};

/// When the later wash at a wanted edge can begin, all else in the plan as it is. Minutes on the plan's clock. Every
/// moment was tried: between the last that was tried without and the first with, it changes.
struct Moment {
    int want = -1;          ///< index into Plan::wants
    int step = -1;          ///< the later wash; -1: the wish was not judged
    int after = -1;         ///< the earlier act whose water it meets; -1: none, the place is dry
    double planned_min = 0; ///< when it began
    bool met = false;       ///< ... and whether that gave the wanted edge
    double tried_from_min = 0, tried_to_min = 0; ///< NaN: nothing was tried
    double earliest_min = 0, latest_min = 0;     ///< NaN: as early or late as was tried; both NaN and not `any`: never
    bool any = false;       ///< at some moment it gives the wanted edge
    double cell_mm = 0;     ///< that it was tried on
    std::string says;       ///< "from 2:10 to 6:30", "from 12:40 on", "at none of 8 moments tried, 2:10 to 30:00"
};

} // namespace tidemark::judge
