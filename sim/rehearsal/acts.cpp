// When acts begin and end, and what beginning and ending does to the sheet.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "air/moist_air.h"
#include "grid/csv.h"
#include "grid/units.h"
#include "rehearsal/rehearsal.h"
#include "sheet/stage.h"

namespace tidemark::rehearsal {
namespace {

sheet::CellStage cell_stage(plan::Stage s) { return static_cast<sheet::CellStage>(static_cast<int>(s)); }

/// A travelling hand is followed in a hundred strokes, each of a quarter of a second to two seconds.
double tick_s(const hand::Work& work) { return std::clamp(0.01 * work.end_s, 0.25, 2.0); }

bool lays_anything(const plan::Act& act) {
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

} // namespace

bool Rehearsal::may_begin(int k, double& waited_s, bool& gave_up) {
    const double now = sheet_.time_s + 1e-9;
    // There is one hand: whatever needs it waits until it is free. A wait for drying leaves it free.
    for (const StepState& other : steps_)
        if (other.begun && !other.done && !other.work.touches.empty()) return false;
    const plan::Start& start = plan_.steps[k].start;
    if (const auto* at = std::get_if<plan::AtTime>(&start)) return now >= at->time_s;
    if (const auto* after = std::get_if<plan::AfterStep>(&start))
        return steps_[after->step].done && now >= steps_[after->step].end_s + after->wait_s;
    const auto& when = std::get<plan::WhenStage>(start);
    if (k > 0 && !steps_[k - 1].done) return false;
    const double since = k > 0 ? steps_[k - 1].end_s : 0;
    waited_s = sheet_.time_s - since;
    look_at_stages();
    const std::size_t area = when.area < 0 ? stages_now_.size() - 1 : static_cast<std::size_t>(when.area);
    if (sheet::has_reached(stages_now_[area].share, cell_stage(when.is))) return true;
    gave_up = waited_s >= when.longest_s;
    return gave_up;
}

void Rehearsal::begin_and_end_acts() {
    for (std::size_t k = 0; k < steps_.size(); ++k) {
        StepState& s = steps_[k];
        if (!s.begun) {
            double waited_s = 0;
            bool gave_up = false;
            if (may_begin(static_cast<int>(k), waited_s, gave_up)) begin(static_cast<int>(k), waited_s, gave_up);
        }
        if (!s.begun || s.done) continue;
        const auto& act = record_.acts[s.act];
        bool gave_up = false;
        if (const auto* dry = std::get_if<plan::Dry>(&plan_.steps[k].act)) {
            if (!wait_is_over(s, *dry, gave_up)) continue;
            record_.acts[s.act].gave_up |= gave_up;
            end(static_cast<int>(k));
        } else if (s.work.next >= s.work.touches.size() && s.work.back_kg_m2 == 0 &&
                   sheet_.time_s >= act.start_s + s.work.end_s - 1e-9) {
            end(static_cast<int>(k));
        }
    }
}

bool Rehearsal::wait_is_over(const StepState& s, const plan::Dry& dry, bool& gave_up) {
    const double waited_s = sheet_.time_s - record_.acts[s.act].start_s;
    if (dry.until) {
        look_at_stages();
        const std::size_t area = dry.area < 0 ? stages_now_.size() - 1 : static_cast<std::size_t>(dry.area);
        if (sheet::has_reached(stages_now_[area].share, cell_stage(*dry.until))) return true;
        gave_up = waited_s >= dry.longest_s - 1e-9;
    }
    return waited_s >= dry.longest_s - 1e-9;
}

void Rehearsal::begin(int k, double waited_s, bool gave_up) {
    catch_up();
    StepState& s = steps_[k];
    const plan::Step& step = plan_.steps[k];
    s.begun = true;
    s.act = static_cast<int>(record_.acts.size());
    s.work = hand::work_of(plan_, step, sheet_.geometry);
    s.tick_s = tick_s(s.work);
    auto& act = record_.acts.emplace_back();
    act.step = k, act.start_s = sheet_.time_s, act.waited_s = waited_s, act.gave_up = gave_up;
    act.pigment_kg.assign(sheet_.pigments.size(), 0);
    act.touched.resize(sheet_.geometry.nx, sheet_.geometry.ny);
    act.met.resize(sheet_.geometry.nx, sheet_.geometry.ny, static_cast<std::uint8_t>(sheet::CellStage::dry));
    if (step.area() >= 0 && s.work.touches.empty() && s.work.back_kg_m2 == 0 && lays_anything(step.act))
        record_.warnings.push_back(
            fmt::format("step \"{}\" laid nothing: at cells of {:.3g} mm no cell is covered by {}", step.name,
                        grid::mm_from_m(sheet_.geometry.cell_m), plan_.areas[step.area()].name));
    if (gave_up)
        record_.warnings.push_back(fmt::format("step \"{}\" began at {} because its longest wait had run out",
                                               step.name, grid::clock_text(sheet_.time_s)));
    if (const auto* at = std::get_if<plan::AtTime>(&step.start); at && sheet_.time_s > at->time_s + 1)
        record_.warnings.push_back(fmt::format("step \"{}\" was due at {} but began at {}: the hand was busy",
                                               step.name, grid::clock_text(at->time_s), grid::clock_text(sheet_.time_s)));
    if (const auto* tilt = std::get_if<plan::Tilt>(&step.act)) {
        sheet_.tilt_rad = tilt->angle_rad;
        sheet_.tilt_direction_rad = tilt->direction_rad;
        film_.forget();
        step_size_.landed(fastest_wave_m_s(), sheet_.geometry.cell_m);
    }
    if (const auto* dry = std::get_if<plan::Dry>(&step.act); dry && dry->warm_air) sheet_.room = warmed(room_, *dry);
    next_check_s_ = sheet_.time_s;
}

void Rehearsal::end(int k) {
    catch_up();
    StepState& s = steps_[k];
    s.done = true;
    s.end_s = sheet_.time_s;
    s.work = {};
    record_.acts[s.act].end_s = sheet_.time_s;
    if (const auto* dry = std::get_if<plan::Dry>(&plan_.steps[k].act)) {
        sheet_.room = room_;
        if (record_.acts[s.act].gave_up)
            record_.warnings.push_back(fmt::format("step \"{}\" stopped waiting at {}: {} was not {} yet",
                                                   plan_.steps[k].name, grid::clock_text(sheet_.time_s),
                                                   dry->area < 0 ? "the sheet" : plan_.areas[dry->area].name,
                                                   plan::word(*dry->until)));
    }
    next_check_s_ = sheet_.time_s;
}

} // namespace tidemark::rehearsal
