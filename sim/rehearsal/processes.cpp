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

bool Rehearsal::steps_in_parts() const {
    return options_.in_parts && sheet_.tilt_rad != 0 && !film_params_.blown();
}

/// Marks the tiles that the hand comes to within the longest step in parts.
void Rehearsal::look_ahead_of_the_hand() {
    coming_wave_m_s_ = 0;
    for (const StepState& s : steps_) {
        if (!s.begun || s.done) continue;
        const double until_s = sheet_.time_s + longest_part_s - record_.acts[s.act].start_s - s.work.paused_s;
        look_at_coming(s.work, until_s);
    }
    coming_wave_m_s_ = fastest_wave_m_s();
    deepest_touched_m_ = 0;
}

/// Tiles that water comes to from the brush, or near to, are awake before it is there.
bool Rehearsal::wake_what_is_coming() {
    bool slept = false;
    grid::TileSet &film = sheet_.film_tiles, &damp = sheet_.damp_tiles;
    for (int tj = 0; tj < film.tiles_y(); ++tj)
        for (int ti = 0; ti < film.tiles_x(); ++ti) {
            const bool comes = coming_[static_cast<std::size_t>(tj) * film.tiles_x() + ti] != 0;
            if (!comes || (film.awake(ti, tj) && damp.awake(ti, tj))) continue;
            film.set(ti, tj, true), damp.set(ti, tj, true);
            slept = true;
        }
    if (slept) film.rebuild(), damp.rebuild();
    return slept;
}

void Rehearsal::wake_if_due() {
    Stopwatch watch(cost_.seconds[4]);
    if (steps_in_parts()) {
        look_ahead_of_the_hand();
        must_wake_ = wake_what_is_coming() || must_wake_;
    }
    if (must_wake_ || ++since_wake_ >= steps_between_wakes || sheet_.film_at_sleepers()) {
        pigment::bind_dried(sheet_);
        sheet_.forget_empty_tiles();
        sheet_.wake(options_.sleep);
        if (steps_in_parts()) wake_what_is_coming();
        film_.wake(sheet_, film_params_);
        if (air::changed_share(sheet_, air_) > sideways_changed) air::update_sideways(sheet_, air_);
        since_wake_ = 0;
        must_wake_ = false;
    } else if (sheet_.film_tiles.any() && (steps_in_parts() || since_wake_ % steps_between_ways == 0)) {
        film_.update_ways(sheet_, film_params_);
    }
}

/// How many cells film waves may cross in a step; 0: any.
double Rehearsal::cells_a_step() const {
    return film_params_.blown()    ? StepSize::cells_blown
           : sheet_.tilt_rad != 0  ? StepSize::cells_draining
           : !film_.all_pinned() ? StepSize::cells_spreading
                                 : 0;
}

/// Returns the time taken: a step that is refused is tried again with half of it.
double Rehearsal::solve_film(water::FilmSolver& film, double dt_s, double cells) {
    for (;;) {
        const water::StepResult r = film.advance(sheet_, film_params_, dt_s);
        cost_.cycles += r.cycles;
        if (r.accepted) {
            step_size_.accepted(r, dt_s, sheet_.geometry.cell_m, cells);
            cost_.cell_steps += static_cast<double>(sheet_.film_tiles.cells());
            return dt_s;
        }
        ++cost_.refused;
        dt_s *= 0.5;
        step_size_.refused(dt_s * 2);
        if (dt_s < 1e-6)
            throw grid::InternalError(fmt::format("the film could not be solved at {} (residual {:.2g} µm)",
                                                  grid::clock_text(sheet_.time_s), r.residual_m * 1e6));
    }
}

double Rehearsal::advance_film(double longest_s) {
    const double until_stroke_s = std::max(std::min(longest_s, next_tick_s() - sheet_.time_s), 1e-6);
    double dt_s = std::min(until_stroke_s, step_size_.film_s());
    if (steps_in_parts()) {
        Parts parts = find_parts(sheet_, {dt_s, longest_s, coming_wave_m_s_, cells_a_step(), touched_});
        if (parts.step_s > 0)
            if (const double taken_s = advance_in_parts(parts, cells_a_step()); taken_s > 0) return taken_s;
    }
    {
        Stopwatch watch(cost_.seconds[1]);
        pigment::film_viscosity(sheet_, film_.nu_factor());
        dt_s = solve_film(film_, dt_s, cells_a_step());
        ++cost_.film_steps;
    }
    Stopwatch watch(cost_.seconds[2]);
    pigment::advect(sheet_, pigment_, dt_s);
    return dt_s;
}

/// Called before an act begins or ends (it may change the room), before a look at the stages and before the ledger.
/// Water that a stroke has laid meanwhile is treated as if it had lain there all the time: a quarter of a second, or a
/// step in parts, two seconds at most; fibres drink and paint dries for minutes.
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
