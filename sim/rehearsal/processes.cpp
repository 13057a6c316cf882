// One step of what happens on the sheet by itself.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "grid/csv.h"
#include "grid/problem.h"
#include "pigment/bind.h"
#include "pigment/transport.h"
#include "pigment/viscosity.h"
#include "rehearsal/rehearsal.h"
#include "rehearsal/stopwatch_detail.h"

namespace tidemark::rehearsal {
namespace {

constexpr int steps_between_wakes = 12;
constexpr int steps_between_ways = 4;
constexpr double sideways_changed = 0.03; // share of the wet pattern
constexpr double deepest_running_m = 200e-6;

} // namespace

/// Of the deepest film that was touched, on this slope, 3 u = g sin α h²/ν; 0 on a level board. What else runs down the
/// board is known by its fluxes.
double Rehearsal::fastest_wave_m_s() const {
    if (sheet_.tilt_rad == 0) return 0;
    // Deeper water is a bead: it stands.
    const double moving = std::max(std::min<double>(deepest_touched_m_, deepest_running_m) - film_params_.held_m, 0.0);
    return film_params_.gravity_m_s2 * std::sin(sheet_.tilt_rad) * moving * moving / film_params_.nu_m2_s;
}

void Rehearsal::wake_if_due() {
    Stopwatch watch(cost_.seconds[4]);
    if (must_wake_ || ++since_wake_ >= steps_between_wakes || sheet_.film_at_sleepers()) {
        pigment::bind_dried(sheet_);
        sheet_.forget_empty_tiles();
        sheet_.wake(options_.sleep);
        film_.wake(sheet_, film_params_);
        if (air::changed_share(sheet_, air_) > sideways_changed) air::update_sideways(sheet_, air_);
        since_wake_ = 0;
        must_wake_ = false;
    } else if (sheet_.film_tiles.any() && since_wake_ % steps_between_ways == 0) {
        film_.update_ways(sheet_, film_params_);
    }
}

double Rehearsal::advance_film(double dt_s) {
    {
        Stopwatch watch(cost_.seconds[1]);
        pigment::film_viscosity(sheet_, film_.nu_factor());
        for (;;) {
            const water::StepResult r = film_.advance(sheet_, film_params_, dt_s);
            cost_.cycles += r.cycles;
            if (r.accepted) {
                step_size_.accepted(r, dt_s, sheet_.geometry.cell_m,
                                    film_params_.blown()    ? StepSize::cells_blown
                                    : sheet_.tilt_rad != 0  ? StepSize::cells_draining
                                    : !film_.all_pinned() ? StepSize::cells_spreading
                                                          : 0);
                break;
            }
            ++cost_.refused;
            dt_s *= 0.5;
            step_size_.refused(dt_s * 2);
            if (dt_s < 1e-6)
                throw grid::InternalError(fmt::format("the film could not be solved at {} (residual {:.2g} µm)",
                                                      grid::clock_text(sheet_.time_s), r.residual_m * 1e6));
        }
        ++cost_.film_steps;
        cost_.cell_steps += static_cast<double>(sheet_.film_tiles.cells());
    }
    Stopwatch watch(cost_.seconds[2]);
    pigment::advect(sheet_, pigment_, dt_s);
    return dt_s;
}

/// Called before an act begins or ends (it may change the room), before a look at the stages and before the ledger.
/// Strokes land at events, and step() has caught up by each of them.
void Rehearsal::catch_up() {
    if (slow_s_ > 0) advance_processes(std::exchange(slow_s_, 0));
}

void Rehearsal::advance_processes(double dt_s) {
    {
        Stopwatch watch(cost_.seconds[3]);
        const auto moved = fibre::advance(sheet_, fibre_, dt_s);
        ledger_.run_off_kg += moved.run_off_kg;
        const air::AirMoved air = air::advance(sheet_, air_, dt_s);
        ledger_.evaporated_kg += air.evaporated_kg;
        ledger_.to_board_kg += air.to_board_kg;
    }
    Stopwatch watch(cost_.seconds[2]);
    pigment::advance(sheet_, pigment_, dt_s);
}

} // namespace tidemark::rehearsal
