#include "hand/trial.h"

#include "hand/touch.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

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

/// Of drops and mist the plan says the time outright. Millions of them may fall, and none moves the hand.
std::optional<double> said_s(const plan::Act& act) {
    if (const auto* charge = std::get_if<plan::Charge>(&act))
        return charge->count * charge->seconds_per_drop;
    if (const auto* spatter = std::get_if<plan::Spatter>(&act))
        return spatter->seconds;
    if (const auto* spray = std::get_if<plan::Spray>(&act))
        return spray->seconds;
    return std::nullopt;
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
    if (const auto seconds = said_s(step.act))
        return {.seconds = *seconds};
    Work work = work_of(plan_, step, sheet_);
    work.mix = -1;
    const auto nothing = [](sheet::SheetState&, int, int) {};
    sheet::Ledger ledger;
    sheet::ActRecord record;
    record.cells = {sheet_.geometry.nx, sheet_.geometry.ny};
    play(sheet_, plan_, work, std::numeric_limits<double>::infinity(), {.dry_cell = nothing, .wet_cell = nothing}, ledger,
         record);
    return {.seconds = work.free_s(), .refills = std::max(0, record.brush_loads - 1), .refilling_s = work.paused_s};
}

} // namespace tidemark::hand
