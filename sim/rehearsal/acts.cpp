// When acts begin and end, and what beginning and ending does to the sheet.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "air/moist_air.h"
#include "air/plate.h"
#include "grid/csv.h"
#include "grid/units.h"
#include "rehearsal/rehearsal.h"
#include "sheet/stage.h"

namespace tidemark::rehearsal {
namespace {

constexpr sheet::CellStage cell_stage(plan::Stage s) { return static_cast<sheet::CellStage>(static_cast<int>(s)); }
static_assert(plan::usual_share(plan::Stage::moist) == sheet::stage_share(cell_stage(plan::Stage::moist)) &&
                  plan::usual_share(plan::Stage::damp) == sheet::stage_share(cell_stage(plan::Stage::damp)) &&
                  plan::usual_share(plan::Stage::dry) == sheet::stage_share(cell_stage(plan::Stage::dry)),
              "waits and windows mean the same by a stage");

constexpr double told_from_mm = 5; // a shorter join is lost in the grain of a wash

/// A travelling hand is followed in a hundred strokes, each of a quarter of a second to two seconds.
double tick_s(const hand::Work& work) { return std::clamp(0.01 * work.end_s, 0.25, 2.0); }

bool touches_anything(const plan::Act& act) {
    return !std::holds_alternative<plan::Tilt>(act) && !std::holds_alternative<plan::Dry>(act);
}

/// Warm air is room air made hotter: it holds the same vapour, so it is drier.
materials::Room warmed(materials::Room room, const plan::Dry& dry) {
    const double vapour_Pa = room.humidity * air::saturation_pressure_Pa(room.temperature_K);
    room.temperature_K = dry.air_temperature_K;
    room.humidity = std::clamp(vapour_Pa / air::saturation_pressure_Pa(room.temperature_K), 0.01, 0.99);
    room.air_m_s = dry.air_m_s;
    return room;
}

/// "sky damp was waited for in 95 % of it, and 40 % had got there"
std::string how_far(const std::string& what, double share, double needed) {
    return fmt::format("{} was waited for in {:.0f} % of it, and {:.0f} % had got there", what, 100 * needed,
                       std::floor(100 * share));
}

} // namespace

/// There is one hand: whatever needs it waits until it is free. A wait for drying leaves it free.
bool Rehearsal::hand_is_busy() const {
    return std::any_of(steps_.begin(), steps_.end(),
                       [](const StepState& s) { return s.begun && !s.done && !s.work.touches.empty(); });
}

/// Of a step that has not begun, with the hand free.
bool Rehearsal::may_begin(int k, Wait& wait) {
    const double now = sheet_.time_s + 1e-9;
    const plan::Start& start = plan_.steps[k].start;
    if (const auto* at = std::get_if<plan::AtTime>(&start)) return now >= at->time_s;
    if (const auto* after = std::get_if<plan::AfterStep>(&start))
        return steps_[after->step].done && now >= steps_[after->step].end_s + after->wait_s;
    const auto& when = std::get<plan::WhenStage>(start);
    if (k > 0 && !steps_[k - 1].done) return false;
    const double since = k > 0 ? steps_[k - 1].end_s : 0;
    wait.waited_s = sheet_.time_s - since;
    if (look_how_far(when.area, when.is, when.share, wait)) return true;
    wait.gave_up = wait.waited_s >= when.longest_s;
    return wait.gave_up;
}

/// Whether enough of an area has reached a stage, and what to say of it.
bool Rehearsal::look_how_far(int area, plan::Stage is, double needed, Wait& wait) {
    look_at_stages();
    const std::size_t index = area < 0 ? stages_now_.size() - 1 : static_cast<std::size_t>(area);
    wait.what = fmt::format("{} {}", area < 0 ? "the sheet" : plan_.areas[index].name, plan::word(is));
    wait.share = sheet::share_in(stages_now_[index].share, cell_stage(is));
    wait.needed = needed;
    return wait.share >= needed - 1e-9; // a sum of shares may miss its whole by a rounding
}

bool Rehearsal::begin_and_end_acts() {
    std::optional<Halt> passed = std::exchange(halted_, std::nullopt);
    bool busy = hand_is_busy(); // not asked of each step: thousands of them would look at thousands
    for (std::size_t k = passed ? static_cast<std::size_t>(passed->step) : 0; k < steps_.size(); ++k) {
        StepState& s = steps_[k];
        if (passed) {
            begin(passed->step, passed->wait);
            passed.reset();
            busy = !s.work.touches.empty();
        } else if (!s.begun && !busy) {
            Wait wait;
            const int step = static_cast<int>(k);
            const bool may = may_begin(step, wait);
            if (may && std::find(halt_before_.begin(), halt_before_.end(), step) != halt_before_.end()) {
                halted_ = Halt{step, wait};
                return false;
            }
            if (may) begin(step, wait), busy = !s.work.touches.empty();
        }
        if (!s.begun || s.done) continue;
        auto& act = record_.acts[s.act];
        if (const auto* dry = std::get_if<plan::Dry>(&plan_.steps[k].act)) {
            Wait wait;
            if (!wait_is_over(s, *dry, wait)) continue;
            act.stopped_waiting = wait.gave_up;
            if (!wait.what.empty()) act.waited_for = wait.what, act.share_reached = wait.share;
            if (wait.gave_up) record_.warnings.push_back(
                fmt::format("step \"{}\" stopped waiting at {}: {}", plan_.steps[k].name,
                            grid::clock_text(sheet_.time_s), how_far(wait.what, wait.share, wait.needed)));
            end(static_cast<int>(k));
        } else if (s.work.next >= s.work.touches.size() && s.work.back_kg_m2 == 0 &&
                   sheet_.time_s >= act.start_s + s.work.free_s() - 1e-9) {
            if (!s.work.touches.empty()) busy = false;
            end(static_cast<int>(k));
        }
    }
    return true;
}

bool Rehearsal::wait_is_over(const StepState& s, const plan::Dry& dry, Wait& wait) {
    wait.waited_s = sheet_.time_s - record_.acts[s.act].start_s;
    const bool longest = wait.waited_s >= dry.longest_s - 1e-9;
    if (dry.until) {
        if (look_how_far(dry.area, *dry.until, dry.share, wait)) return true;
        wait.gave_up = longest;
    }
    return longest;
}

void Rehearsal::begin(int k, const Wait& wait) {
    catch_up();
    StepState& s = steps_[k];
    const plan::Step& step = plan_.steps[k];
    s.begun = true;
    s.act = static_cast<int>(record_.acts.size());
    s.work = hand::work_of(plan_, step, sheet_);
    s.tick_s = tick_s(s.work);
    auto& act = record_.acts.emplace_back();
    act.step = k, act.start_s = sheet_.time_s, act.waited_s = wait.waited_s, act.gave_up = wait.gave_up;
    act.waited_for = wait.what, act.share_reached = wait.share;
    act.pigment_kg.assign(sheet_.pigments.size(), 0);
    act.pigment_lifted_kg.assign(sheet_.pigments.size(), 0);
    act.cells = {sheet_.geometry.nx, sheet_.geometry.ny};
    warn_of_start(step, s, wait);
    if (const auto* tilt = std::get_if<plan::Tilt>(&step.act)) {
        sheet_.tilt_rad = tilt->angle_rad;
        sheet_.tilt_direction_rad = tilt->direction_rad;
        film_.forget();
        step_size_.landed(fastest_wave_m_s(), sheet_.geometry.cell_m);
    }
    if (std::holds_alternative<plan::Dry>(step.act)) set_air();
    next_check_s_ = sheet_.time_s;
}

/// The air at the sheet: that of the dryer switched on last of those that are on, hotter, faster and with a push on what
/// is wet; else the room's.
void Rehearsal::set_air() {
    sheet_.room = room_, film_params_.air_stress_x_Pa = film_params_.air_stress_y_Pa = 0;
    int latest = -1;
    const plan::Dry* on = nullptr;
    for (std::size_t k = 0; k < steps_.size(); ++k) {
        const auto* dry = std::get_if<plan::Dry>(&plan_.steps[k].act);
        if (dry && dry->warm_air && steps_[k].begun && !steps_[k].done && steps_[k].act > latest)
            latest = steps_[k].act, on = dry;
    }
    if (!on) return;
    sheet_.room = warmed(room_, *on);
    if (!on->blows_rad) return;
    const double stress_Pa = air::plate_stress_Pa(sheet_.room, air::plate_length_m(sheet_));
    film_params_.air_stress_x_Pa = stress_Pa * std::cos(*on->blows_rad);
    film_params_.air_stress_y_Pa = stress_Pa * std::sin(*on->blows_rad);
    step_size_.landed(0, sheet_.geometry.cell_m);
}

void Rehearsal::end(int k) {
    catch_up();
    StepState& s = steps_[k];
    s.done = true;
    s.end_s = sheet_.time_s;
    stages_at_s_ = -1; // a wait must not look at the sheet as it was before
    warn_of_resist(plan_.steps[k], s.work);
    warn_of_edge(plan_.steps[k], record_.acts[s.act].left_behind);
    s.work = {};
    record_.acts[s.act].end_s = sheet_.time_s, record_.acts[s.act].ended = true;
    record_.acts[s.act].cells.fit();
    if (std::holds_alternative<plan::Dry>(plan_.steps[k].act)) set_air();
    next_check_s_ = sheet_.time_s;
}

void Rehearsal::warn_of_start(const plan::Step& step, const StepState& s, const Wait& wait) {
    const auto warn = [&](std::string text) { record_.warnings.push_back(std::move(text)); };
    const std::string now = grid::clock_text(sheet_.time_s);
    if (step.area() >= 0 && s.work.touches.empty() && s.work.back_kg_m2 == 0 && touches_anything(step.act))
        warn(fmt::format("step \"{}\" did nothing: at cells of {:.3g} mm it touches no cell of {}", step.name,
                         grid::mm_from_m(sheet_.geometry.cell_m), plan_.areas[step.area()].name));
    if (wait.gave_up)
        warn(fmt::format("step \"{}\" began at {} because its longest wait had run out: {}", step.name, now,
                         how_far(wait.what, wait.share, wait.needed)));
    double due_s = sheet_.time_s;
    if (const auto* at = std::get_if<plan::AtTime>(&step.start)) due_s = at->time_s;
    if (const auto* after = std::get_if<plan::AfterStep>(&step.start)) due_s = steps_[after->step].end_s + after->wait_s;
    if (sheet_.time_s > due_s + 1)
        warn(fmt::format("step \"{}\" was due at {} but began at {}: the hand was busy", step.name,
                         grid::clock_text(due_s), now));
}

void Rehearsal::warn_of_resist(const plan::Step& step, const hand::Work& work) {
    if (work.too_wet == 0) return;
    const double mm = grid::mm_from_m(sheet_.geometry.cell_m), cm2 = mm * mm * 0.01;
    if (std::holds_alternative<plan::Reserve>(step.act))
        record_.warnings.push_back(
            fmt::format("step \"{}\" left {:.3g} of {:.3g} cm2 uncovered: the paper was wet there, and resist needs it dry",
                        step.name, work.too_wet * cm2, (work.too_wet + work.covered) * cm2));
    if (std::holds_alternative<plan::Uncover>(step.act))
        record_.warnings.push_back(
            fmt::format("step \"{}\" took resist off {:.3g} cm2 that were wet or beside wet paper: paint can run in, and "
                        "the paper may tear", step.name, work.too_wet * cm2));
}

void Rehearsal::warn_of_edge(const plan::Step& step, const sheet::LeftBehind& left) {
    const double mm = grid::mm_from_m(sheet_.geometry.cell_m), length_mm = static_cast<double>(left.faces) * mm;
    if (length_mm < told_from_mm) return;
    record_.warnings.push_back(fmt::format(
        "step \"{}\" left its wet edge behind: along {:.0f} mm it came back to an edge of its own that had no film left, "
        "first at {} near {:.0f}, {:.0f} mm", step.name, length_mm, grid::clock_text(left.first_s), (left.i + 0.5) * mm,
        (left.j + 0.5) * mm));
}

} // namespace tidemark::rehearsal
