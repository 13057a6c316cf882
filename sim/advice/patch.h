/// A piece of a sheet that was painted, small enough to try things on: what is on it has the water, the paint and the hours
/// that it had there.
///
///   Patch patch = Patches(plan, record).around(edge.x_mm, edge.y_mm, 40, edge.step);
///   Trials(patch.plan, ...).play({{patch.values(as_planned(plan)), patch.stop_after}})
///
/// A square about a place, or what the sheet has of that. Of the run's acts those that touched it, up to the drying after
/// `step`; each begins when the hand came to the patch and takes as long over it as it did there. Areas are the sheet's, cell
/// by cell; drops as many as their share. Dryings last as long as they did, since what the rest of the sheet takes is
/// not known here. Left out: what runs onto the patch from elsewhere or off it, and another tooth of the paper. So a patch must
/// first show what the sheet showed (moments.h).
///
/// A wash led from a point outside, by strokes or by a picture goes in rows; a brush that is filled has its pauses in its pace.
#pragma once
#include "grid/field.h"
#include "plan/plan.h"
#include "plan/variants.h"
#include "sheet/record.h"

#include <vector>

namespace tidemark::advice {

/// What of an act lies on the patch.
struct Piece {
    int step = 0;             ///< in the sheet's plan
    double start_s = 0;       ///< of the act, on the sheet
    double first_s = 0, last_s = 0; ///< after that: when the hand came to the patch, and left it
    double area_m2 = 0, share = 1;  ///< touched here; of all that it touched
};

/// Moves acts on the clock: those of the sheet's run from `from_s` on, or `only` one, by `by_s`.
struct Shift {
    double from_s = 0, by_s = 0;
    int only = -1;     ///< a step of the sheet's plan
    int dries_on = -1; ///< this drying takes longer by as much
};

struct Patch {
    plan::Plan plan;              ///< begins its steps by the clock
    std::vector<Piece> pieces;    ///< by step of `plan`
    std::vector<int> stop_after;  ///< steps of `plan`; none: until it is dry
    double x0_m = 0, y0_m = 0;
    int step_of(int sheet_step) const; ///< in `plan`; -1: it did not touch the patch
    /// With the acts of the sheet's plan, or of a changed one.
    plan::Values values(const plan::Values& of_sheet, const Shift& = {}) const;
};

class Patches {
  public:
    Patches(const plan::Plan&, const sheet::Record&); ///< both outlive it
    Patch around(double x_mm, double y_mm, double side_mm, int step) const;

  private:
    const plan::Plan& plan_;
    const sheet::Record& record_;
    int nx_ = 0, ny_ = 0;
    std::vector<grid::Field<float>> areas_;
};

} // namespace tidemark::advice
