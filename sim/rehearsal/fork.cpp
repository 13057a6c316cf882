// How long a run is also that of another variant of its plan, and going on as that one.
#include <algorithm>

#include "grid/problem.h"
#include "rehearsal/rehearsal.h"

namespace tidemark::rehearsal {
namespace {

constexpr double margin_s = 1e-6; // more than any tolerance by which acts begin and end

} // namespace

/// At the earliest; not before now, for a step that isn't done. The hand is never freed sooner than its work says.
double Rehearsal::earliest_end_s(int k, const std::vector<plan::Step>& steps) const {
    const StepState& s = steps_[k];
    if (s.done) return s.end_s;
    if (s.begun) return std::max(sheet_.time_s, record_.acts[s.act].start_s + s.work.free_s());
    const plan::Start& start = steps[k].start;
    double ready_s = 0;
    if (const auto* at = std::get_if<plan::AtTime>(&start)) ready_s = at->time_s;
    if (const auto* after = std::get_if<plan::AfterStep>(&start)) ready_s = earliest_end_s(after->step, steps) + after->wait_s;
    if (std::holds_alternative<plan::WhenStage>(start) && k > 0) ready_s = earliest_end_s(k - 1, steps);
    return std::max(ready_s, sheet_.time_s);
}

/// Whether a step() now could look at when this step begins: next_event_s() and may_begin() are all that do. The first
/// reaches no further than the longest quiet step, and asks for a wait only once the step before is done.
bool Rehearsal::start_matters(int k, const std::vector<plan::Step>& steps) const {
    if (steps_[k].begun) return false;
    const double soon_s = sheet_.time_s + margin_s, reach_s = soon_s + StepSize::longest_quiet_s;
    const plan::Start& start = steps[k].start;
    if (const auto* at = std::get_if<plan::AtTime>(&start)) return at->time_s <= reach_s;
    if (const auto* after = std::get_if<plan::AfterStep>(&start)) {
        const double end_s = earliest_end_s(after->step, steps);
        return end_s <= soon_s && end_s + after->wait_s <= reach_s;
    }
    return k == 0 || earliest_end_s(k - 1, steps) <= soon_s;
}

bool Rehearsal::starts_alike(const std::vector<int>& steps, const std::vector<plan::Step>& other) const {
    return std::none_of(steps.begin(), steps.end(),
                        [&](int k) { return start_matters(k, plan_.steps) || start_matters(k, other); });
}

Rehearsal Rehearsal::fork(const plan::Values& other) const {
    for (const plan::Difference& d : plan::differences({plan_.paper, plan_.room, plan_.mixes, plan_.steps}, other))
        if (steps_[d.step].begun)
            throw grid::InternalError("step \"" + plan_.steps[d.step].name + "\" has begun: it can't be another one now");
    Rehearsal run = *this;
    run.plan_.mixes = other.mixes;
    run.plan_.steps = other.steps;
    return run;
}

void Rehearsal::exchange_masks(std::vector<grid::GreyPicture>& masks) {
    masks.resize(plan_.areas.size());
    for (std::size_t a = 0; a < masks.size(); ++a) std::swap(plan_.areas[a].mask, masks[a]);
}

} // namespace tidemark::rehearsal
