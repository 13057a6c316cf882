/// How long each act keeps the hand, before anything is simulated.
///
/// The hand goes through the plan's own touches (touch.h) on a sheet on which nothing runs, soaks in or dries, so
/// that ways, strokes, refills and resist are those of a rehearsal. What an act has wetted stays wet until the plan
/// waits for the sheet (drops and mist don't count): a dry step, or a start that waits for a stage. On wet paper a
/// brush lays film_um everywhere, on dry paper less on peaks and more in valleys; so a run needs other refills where
/// the paper does not keep to that rule: of a second wash over a rough sheet whose peaks had dried after a minute it
/// took 21, not 26.
///
///   Trial trial(plan);
///   plan::timetable(plan, [&](int step) { return trial(step); })
#pragma once
#include "plan/timetable.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

class Trial {
  public:
    explicit Trial(const plan::Plan&); ///< cells of 0.5 mm, as a run has them, or of 100 000 on the sheet
    Trial(const plan::Plan&, double cell_m);
    plan::Busy operator()(int step);   ///< in the order in which the hand takes the steps

  private:
    const plan::Plan& plan_;
    sheet::SheetState sheet_;
};

} // namespace tidemark::hand
