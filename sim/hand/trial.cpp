#include "hand/trial.h"

#include "hand/touch.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::hand {

namespace {

constexpr double finest_cell_m = 0.5e-3, most_cells = 100'000;

bool waits_for_the_sheet(const plan::Step& step) {
    return std::holds_alternative<plan::Dry>(step.act) || std::holds_alternative<plan::WhenStage>(step.start);
}

void dry_off(sheet::SheetState& s) {
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.film_m(i, j) = 0;
}

} // namespace

Trial::Trial(const plan::Plan& plan)
    : Trial(plan, std::max(finest_cell_m, std::sqrt(plan.width_m * plan.height_m / most_cells))) {}

/// Of paint only the water counts here, so that the sheet carries no pigment.
Trial::Trial(const plan::Plan& plan, double cell_m)
    : plan_(plan), sheet_(sheet::SheetState::make(plan.width_m, plan.height_m, cell_m, plan.paper, plan.room,
                                                  sheet::BoardKind::sealed, {}, plan.seed)) {
    sheet_.tilt_direction_rad = plan.tilt_direction_rad;
}

plan::Busy Trial::operator()(int index) {
    const plan::Step& step = plan_.steps[index];
    if (waits_for_the_sheet(step))
        dry_off(sheet_);
    if (const auto* tilt = std::get_if<plan::Tilt>(&step.act))
        sheet_.tilt_direction_rad = tilt->direction_rad;
    Work work = work_of(plan_, step, sheet_);
    work.mix = -1;
    const auto nothing = [](sheet::SheetState&, int, int) {};
    sheet::Ledger ledger;
    sheet::ActRecord record;
    record.touched.resize(sheet_.geometry.nx, sheet_.geometry.ny);
    record.met.resize(sheet_.geometry.nx, sheet_.geometry.ny);
    play(sheet_, plan_, work, std::numeric_limits<double>::infinity(), {.dry_cell = nothing, .wet_cell = nothing}, ledger,
         record);
    return {.seconds = work.free_s(), .refills = std::max(0, record.brush_loads - 1), .refilling_s = work.paused_s};
}

} // namespace tidemark::hand
