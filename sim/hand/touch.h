/// What the hand does, cut into touches: this much of that mix, on this cell, at that second.
///
/// Every act that brings, takes or covers something is made into a list of touches when it begins (work_of; paths.h
/// says in which order the hand travels); play() then does those that have come due. A brush lays a film with a level
/// surface, so on a dry cell the depth is the film over the mean plane less the cell's relief, at least a sixth of it;
/// on a wet cell it adds the film as it is. Drops, a dragged brush and stiff paint bring the same depth to peaks and
/// valleys alike.
///
/// A touch on a dry cell begins a new pass there (pigment/bind.h's rule is called through LandOn, for the hand
/// knows nothing of how paint is bound); on a wet one a brush stirs. Touches on cells under resist are skipped: nothing
/// is laid or booked there, and the brush loses nothing.
///
/// A brush with a load gives until what it releases is spent, then pauses for a refill: all later touches shift.
///
/// Range   work_of() refuses (grid/within.h) an act's numbers beyond what is still a film, a drop and a hand: films to
///         5 mm, water and paint to 5 kg/m², drops to 5 mL, marks of 0.01 to 1000 mm, paces of 0.001 to 1000 cm²/s, speeds of
///         0.01 to 1000 cm/s, an hour for what has a time. A plan's own ranges are narrower (README).
#pragma once
#include <functional>
#include <vector>

#include "plan/plan.h"
#include "sheet/ledger.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

enum class Does : std::uint8_t {
    lay,        ///< a film with a level surface
    lay_evenly, ///< the same depth over peaks and valleys
    soften,     ///< water laid, stirred, and a little taken up again
    take_down,  ///< the film down to film_m
    lift,       ///< what Work::tool takes (lift_table.h)
    reserve,    ///< resist, where there is no film
    uncover
};

struct Touch {
    float at_s = 0;     ///< after the act's start, pauses apart
    float film_m = 0;   ///< over the mean plane
    int i = 0, j = 0;
    float share = 1;    ///< of the cell, 0 ... 1
    Does does = Does::lay;
};

struct Work {
    int mix = -1;               ///< -1: clear water
    double mix_per_water = 1;   ///< from 1 on; kg of mix for each kg of water laid: 1 while a mix is little else than water
    bool brush = true;          ///< drops fall, a brush also stirs
    /// Of a wash, whose marks join on to the last ones while they are wet: 1 in cells that get more than half a film.
    /// The fringe of a soft shape gets less, and is dry at once.
    grid::Field<std::uint8_t> joins;
    plan::LiftTool tool = plan::LiftTool::thirsty_brush;
    double sheds_over_m = 0;    ///< what would lie deeper than this runs off at once; 0: nothing
    std::vector<Touch> touches; ///< by time
    std::size_t next = 0;
    double end_s = 0;           ///< the hand is free again, after the act's start, pauses apart

    double load_m3 = 0;         ///< what a charge of the brush gives; 0: a brush that never runs dry
    double left_m3 = 0;
    double refill_s = 0;
    double paused_s = 0;        ///< so far

    double back_kg_m2 = 0;      ///< to the back of the sheet at the start, over `back_share`
    grid::Field<float> back_share;

    long covered = 0, too_wet = 0; ///< cells that took resist, or had it taken off; of those asked, that were wet
    double free_s() const { return end_s + paused_s; }
};

/// What happens to the paint already on a cell when something lands there.
struct LandOn {
    std::function<void(sheet::SheetState&, int i, int j)> dry_cell;
    std::function<void(sheet::SheetState&, int i, int j)> wet_cell;
    /// A scrub frees `share` of what staining lets go.
    std::function<void(sheet::SheetState&, int i, int j, double share)> scrub{};
};

/// The touches of an act on this sheet. Acts that touch nothing (tilt, dry) have none and end at once.
Work work_of(const plan::Plan&, const plan::Step&, const sheet::SheetState&);

/// Does everything due by `until_s` (after the act's start) and books it. Returns whether film or resist changed.
bool play(sheet::SheetState&, const plan::Plan&, Work&, double until_s, const LandOn&, sheet::Ledger&,
          sheet::ActRecord&);

} // namespace tidemark::hand
