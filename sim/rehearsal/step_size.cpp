#include "rehearsal/step_size.h"

#include <algorithm>
#include <utility>

namespace tidemark::rehearsal {

namespace {
constexpr double allowed_change = 0.15; // of depth + 10 µm in one step
constexpr int many_cycles = 12;
} // namespace

void StepSize::landed(double wave_m_s, double cell_m) {
    film_s_ = std::min(film_s_, landing_s);
    if (wave_m_s > 0) film_s_ = std::clamp(cells_draining * cell_m / wave_m_s, shortest_s, film_s_);
}

void StepSize::refused(double tried_s) { film_s_ = 0.5 * tried_s, refused_ = true; }

void StepSize::accepted(const water::StepResult& r, double taken_s, double cell_m, double cells_a_step) {
    double dt = 1.5 * taken_s;
    if (taken_s < 0.99 * film_s_) dt = std::max(dt, film_s_); // cut short by an event, not by the film
    if (r.change > 0) dt = std::min(dt, taken_s * std::max(0.3, allowed_change / r.change));
    if (r.cycles > many_cycles) dt = std::min(dt, 0.8 * taken_s);
    if (!std::exchange(refused_, false)) dt = std::max(dt, settling_s); // else it would be refused again, and again
    if (cells_a_step > 0 && r.speed_m_s > 0) dt = std::min(dt, cells_a_step * cell_m / r.speed_m_s);
    film_s_ = std::clamp(dt, shortest_s, longest_film_s);
}

} // namespace tidemark::rehearsal
