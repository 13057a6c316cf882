/// When the later wash at each wanted edge can begin and still give it.
///
/// For every wish that was judged, a patch of the sheet, 40 mm wide, about the middle of the longest stretch of its edge that has
/// the edge's word (patch.h) is painted as it was, and with the later of the two washes begun sooner and later: at once when the last act is done whose water it meets, a sixteenth,
/// a quarter and all of the way to where that has dried (or half an hour on, if that is longer). Where the verdict changes
/// next to the planned moment it is halved twice, unless less than 15 s or an eighth of the time since then is left. Begun sooner, all else keeps its minute; later, what comes after it waits as long.
///
/// Only moments that were tried are told, and only where the patch, painted as planned, has the word for its edge that the
/// sheet has; for a wish that was not met one of 100 mm is tried then. A verdict that changes more often than these tries see is not found.
#pragma once
#include "advice/patch.h"
#include "advice/trials.h"
#include "judge/advice.h"

namespace tidemark::advice {

/// One beginning of a wash, and what its edge became.
struct Tried {
    double start_s = 0;
    judge::Edge edge; ///< word empty: not judged
    bool met = false;
};

struct Timing {
    int want = -1, step = -1;
    double planned_s = 0, since_s = 0; ///< since when the place is wet
    bool alike = false;        ///< the patch, as planned, has the same word for this edge as the sheet
    Patch patch;
    Outcome planned;           ///< of the patch
    std::vector<Tried> tries;  ///< by time, the planned moment among them; empty: nothing was tried
    judge::Moment moment;
};

/// One for each of Plan::wants. `found`: as the painter's run had it, with its record. Errors: Stopped; as play_branches().
std::vector<Timing> try_moments(const plan::Plan&, const Outcome& found, const sheet::Record&, int threads, const Tell&);

/// With moments that were tried on the whole sheet: where one of them has another verdict than the patch, or the patch shows
/// another edge altogether, they alone count.
void hold_to_sheet(Timing&, const Outcome& found, const std::vector<Tried>& on_sheet, double cell_m);

/// Cells of a patch: the run's own, or half a millimetre if those are finer.
double patch_cell_m(const sheet::Record&);

} // namespace tidemark::advice
