#include "rehearsal/rehearsal.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pigment/bind.h"
#include "pigment/stir.h"
#include "plan/coverage.h"
#include "rehearsal/stopwatch_detail.h"

namespace tidemark::rehearsal {
namespace {

constexpr double brush_stirs = 0.3;      // share of what lies loose that a passing brush takes up (from memory)
constexpr double slow_step_s = 0.25; // uptake, drying and settling take minutes

sheet::BoardKind kind_of(plan::Board b) {
    return b == plan::Board::open ? sheet::BoardKind::open
           : b == plan::Board::absorbent ? sheet::BoardKind::absorbent : sheet::BoardKind::sealed;
}

grid::Field<std::uint8_t> cells_of(const plan::Plan& plan, int area, const sheet::Geometry& g) {
    const grid::Field<float> cover = plan::coverage(plan, area, g.nx, g.ny);
    grid::Field<std::uint8_t> cells(g.nx, g.ny);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) cells(i, j) = cover(i, j) >= plan::half_covered;
    return cells;
}

} // namespace

Rehearsal::Rehearsal(const plan::Plan& plan, const Options& options)
    : plan_(plan), options_(options),
      sheet_(sheet::SheetState::make(plan.width_m, plan.height_m, options.cell_m, plan.paper, plan.room,
                                     kind_of(plan.board), plan.pigments, plan.seed)),
      film_params_(water::FilmParams::of(plan.paper)), film_(sheet_, film_params_), steps_(plan.steps.size()),
      room_(plan.room) {
    sheet_.tilt_rad = plan.tilt_rad;
    sheet_.tilt_direction_rad = plan.tilt_direction_rad;
    for (std::size_t a = 0; a < plan.areas.size(); ++a)
        areas_.emplace_back(cells_of(plan, static_cast<int>(a), sheet_.geometry));
    if (options.sleep) sheet_.track_pigment();
    ledger_.pigment_laid_kg.assign(plan.pigments.size(), 0);
    ledger_.pigment_lifted_kg.assign(plan.pigments.size(), 0);
    const sheet::LedgerLine start = sheet::check(sheet_, ledger_);
    ledger_.start_kg = start.film_kg + start.front_kg + start.back_kg;
    record_.cell_m = options.cell_m;
    touched_.assign(static_cast<std::size_t>(sheet_.film_tiles.tiles_x()) * sheet_.film_tiles.tiles_y(), 0);
    coming_ = touched_;
    next_frame_s_ = options.frame_every_s;
}

std::optional<int> Rehearsal::acting() const {
    for (std::size_t k = 0; k < steps_.size(); ++k)
        if (steps_[k].begun && !steps_[k].done) return static_cast<int>(k);
    return std::nullopt;
}

bool Rehearsal::all_done() const {
    return std::all_of(steps_.begin(), steps_.end(), [](const StepState& s) { return s.done; });
}

bool Rehearsal::step() {
    if (over_) return false;
    if (!after_the_hand_) {
        if (!halted_) frame_due_ = false;
        if (!begin_and_end_acts()) return true;
        record_moment();
        if (!goes_on()) return false;
        landed_ = play_hand();
        after_the_hand_ = hand_has_finished(); // with its last touch: what comes next need not wait for another step
    }
    if (after_the_hand_) {
        if (!begin_and_end_acts()) return true;
        landed_ |= play_hand();
        after_the_hand_ = false;
    }
    move_on();
    return true;
}

bool Rehearsal::has_done_enough() const {
    return !stop_after_.empty() && std::all_of(stop_after_.begin(), stop_after_.end(), [&](int k) { return steps_[k].done; });
}

/// Else it is over.
bool Rehearsal::goes_on() {
    const bool stopped = has_done_enough() || (options_.until_s > 0 && sheet_.time_s >= options_.until_s - 1e-9);
    const bool quiet = all_done() && !sheet_.film_tiles.any() && !must_wake_;
    bool dry = false;
    if (quiet) {
        look_at_stages();
        dry = stages_now_.back().share[3] >= 0.999;
    }
    if (stopped || dry || sheet_.time_s >= options_.longest_s) {
        record_.dried = dry;
        if (!dry && !stopped) record_.warnings.emplace_back("the sheet was still damp when the longest time ran out");
        finish();
        return false;
    }
    return true;
}

/// Water and time.
void Rehearsal::move_on() {
    if (landed_) {
        must_wake_ = true;
        step_size_.landed(fastest_wave_m_s(), sheet_.geometry.cell_m);
        deepest_touched_m_ = 0;
    }
    wake_if_due();
    // Strokes that land in a part are no reason to stop.
    const double next_s = steps_in_parts() ? next_event_s() : std::min(next_event_s(), next_tick_s());
    const double room_left_s = std::max(next_s - sheet_.time_s, 1e-6);
    const double taken_s = sheet_.film_tiles.any() ? advance_film(room_left_s)
                                                   : std::min({room_left_s, std::max(next_tick_s() - sheet_.time_s, 1e-6),
                                                              StepSize::longest_quiet_s});
    if (!sheet_.film_tiles.any()) ++cost_.quiet_steps;
    std::fill(touched_.begin(), touched_.end(), std::uint8_t{0});
    std::fill(coming_.begin(), coming_.end(), std::uint8_t{0});
    // What is slow need not follow a running film step by step.
    slow_s_ += taken_s;
    if (slow_s_ >= slow_step_s || taken_s > 0.999999 * room_left_s || !sheet_.film_tiles.any()) catch_up();
    sheet_.time_s += taken_s;
    if (options_.frame_every_s > 0 && sheet_.time_s >= next_frame_s_ - 1e-9) {
        frame_due_ = true;
        next_frame_s_ += options_.frame_every_s;
    }
}

/// The next moment that a step must not jump over, strokes apart (next_tick_s).
double Rehearsal::next_event_s() const {
    const double now = sheet_.time_s;
    double next = now + StepSize::longest_quiet_s;
    const auto at = [&](double t) { if (t > now + 1e-9) next = std::min(next, t); };
    at(next_sample_s_);
    at(options_.longest_s);
    if (options_.until_s > 0) at(options_.until_s);
    if (options_.frame_every_s > 0) at(next_frame_s_);
    for (std::size_t k = 0; k < steps_.size(); ++k) {
        const StepState& s = steps_[k];
        if (s.done) continue;
        if (s.begun) {
            const double start = record_.acts[s.act].start_s;
            at(start + s.work.free_s());
            if (const auto* dry = std::get_if<plan::Dry>(&plan_.steps[k].act)) {
                at(start + dry->longest_s);
                if (dry->until) next = std::min(next, now + stages_every_s_ * 2);
            }
        } else if (const auto* t = std::get_if<plan::AtTime>(&plan_.steps[k].start)) {
            at(t->time_s);
        } else if (const auto* a = std::get_if<plan::AfterStep>(&plan_.steps[k].start)) {
            if (steps_[a->step].done) at(steps_[a->step].end_s + a->wait_s);
        } else if (k == 0 || steps_[k - 1].done) {
            next = std::min(next, now + stages_every_s_ * 2);
        }
    }
    return next;
}

bool Rehearsal::hand_has_finished() const {
    return std::any_of(steps_.begin(), steps_.end(), [&](const StepState& s) {
        return s.begun && !s.done && !s.work.touches.empty() && s.work.next >= s.work.touches.size() &&
               sheet_.time_s >= record_.acts[s.act].start_s + s.work.free_s() - 1e-9;
    });
}

void Rehearsal::flag(TileFlags& tiles, int i, int j) const {
    constexpr int size = grid::TileSet::size;
    if (sheet_.inside(i, j)) tiles[static_cast<std::size_t>(j / size) * sheet_.film_tiles.tiles_x() + i / size] = 1;
}

/// At touches of this work that have been done, from the one numbered `from`.
void Rehearsal::look_at_touched(const hand::Work& work, std::size_t from) {
    for (std::size_t k = from; k < work.next; ++k) {
        const hand::Touch& t = work.touches[k];
        deepest_touched_m_ = std::max(deepest_touched_m_, sheet_.film_m(t.i, t.j));
        flag(touched_, t.i, t.j);
    }
}

/// At those that come by `until_s`, after its act's start.
void Rehearsal::look_at_coming(const hand::Work& work, double until_s) {
    for (std::size_t k = work.next; k < work.touches.size() && work.touches[k].at_s <= until_s; ++k) {
        const hand::Touch& t = work.touches[k];
        flag(touched_, t.i, t.j);
        if (t.does != hand::Does::lay && t.does != hand::Does::lay_evenly && t.does != hand::Does::soften) continue;
        deepest_touched_m_ = std::max(deepest_touched_m_, sheet_.film_m(t.i, t.j) + t.film_m);
        for (int di : {-sheet::wake_margin, sheet::wake_margin})
            for (int dj : {-sheet::wake_margin, sheet::wake_margin})
                flag(coming_, std::clamp(t.i + di, 0, sheet_.geometry.nx - 1), std::clamp(t.j + dj, 0, sheet_.geometry.ny - 1));
    }
}

/// When the hand lays its next strokes.
double Rehearsal::next_tick_s() const {
    double next = std::numeric_limits<double>::infinity();
    for (const StepState& s : steps_)
        if (s.begun && !s.done && s.work.next < s.work.touches.size() && s.next_tick_s > sheet_.time_s + 1e-9)
            next = std::min(next, s.next_tick_s);
    return next;
}

bool Rehearsal::play_hand() {
    Stopwatch watch(cost_.seconds[0]);
    const hand::LandOn land{.dry_cell = [](sheet::SheetState& s, int i, int j) { pigment::begin_pass(s, i, j); },
                            .wet_cell = [](sheet::SheetState& s, int i, int j) { pigment::stir_cell(s, i, j, brush_stirs); },
                            .scrub = pigment::scrub_cell};
    bool landed = false;
    for (StepState& s : steps_)
        if (s.begun && !s.done) {
            auto& act = record_.acts[s.act];
            if (sheet_.time_s < s.next_tick_s - 1e-6 && sheet_.time_s < act.start_s + s.work.free_s() - 1e-6) continue;
            s.next_tick_s = sheet_.time_s + s.tick_s;
            const std::size_t from = s.work.next;
            landed |= hand::play(sheet_, plan_, s.work, sheet_.time_s - act.start_s + 1e-6, land, ledger_, act);
            look_at_touched(s.work, from);
        }
    return landed;
}

double Rehearsal::end_guess_s() const {
    if (options_.until_s > 0) return options_.until_s;
    double last = sheet_.time_s;
    for (std::size_t k = 0; k < steps_.size(); ++k)
        if (!steps_[k].done)
            if (const auto* t = std::get_if<plan::AtTime>(&plan_.steps[k].start)) last = std::max(last, t->time_s);
    return last + 3600; // a wash dries in about an hour and a half; honest enough for a progress line
}

} // namespace tidemark::rehearsal
