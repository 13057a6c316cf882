#include "viewer/studio/checkpoints_detail.h"

#include "plan/digest.h"

#include <algorithm>

namespace tidemark::viewer {

namespace {

/// The state with its plan's steps changed, when what has been done is the same in both.
std::optional<rehearsal::Rehearsal> gone_on(const rehearsal::Rehearsal& state, const plan::Values& values) {
    const plan::Plan& was = state.plan();
    std::vector<int> starts;
    for (const plan::Difference& d : plan::differences({was.paper, was.room, was.mixes, was.steps}, values)) {
        if (state.begun(d.step)) return std::nullopt;
        if (d.start) starts.push_back(d.step);
    }
    if (!state.starts_alike(starts, values.steps)) return std::nullopt;
    return state.fork(values);
}

std::vector<grid::GreyPicture> masks_of(const plan::Plan& plan) {
    std::vector<grid::GreyPicture> masks;
    for (const plan::Area& a : plan.areas) masks.push_back(a.mask);
    return masks;
}

} // namespace

/// The sheet's fields, each pigment's, each act's, and what the loop has of its own; within a third of what was measured on
/// sheets of 9000 and of 31 000 cells.
std::size_t bytes_of(const rehearsal::Rehearsal& run) {
    const auto& s = run.sheet();
    const std::size_t cells = static_cast<std::size_t>(s.geometry.px) * s.geometry.py;
    std::size_t fields = 60 + 6 * s.pigments.size() + s.passes.size() * s.pigments.size();
    return cells * (4 * fields + 4 * run.record().acts.size()) / 5 * 7;
}

/// `a` without masks, which are `masks`.
bool same_ground(const plan::Plan& a, const std::vector<grid::GreyPicture>& masks, const plan::Plan& b) {
    if (a.steps.size() != b.steps.size() || a.mixes.size() != b.mixes.size() || a.areas.size() != b.areas.size()) return false;
    for (std::size_t k = 0; k < a.areas.size(); ++k)
        if (a.areas[k].name != b.areas[k].name) return false;
    plan::Plan like_b = a;
    like_b.mixes = b.mixes, like_b.steps = b.steps;
    for (std::size_t k = 0; k < masks.size(); ++k) like_b.areas[k].mask = masks[k];
    return plan::digest(like_b).same_as(plan::digest(b));
}

void Checkpoints::add(rehearsal::Rehearsal& run) {
    const std::size_t one = std::max<std::size_t>(1, bytes_of(run));
    std::vector<grid::GreyPicture> masks;
    run.exchange_masks(masks);
    auto state = std::make_shared<const rehearsal::Rehearsal>(run);
    run.exchange_masks(masks);
    const std::lock_guard lock(mutex_);
    if (masks_.empty()) masks_ = masks_of(run.plan());
    states_.push_back(std::move(state));
    // The one goes whose neighbours lie nearest to each other: what is left stays spread over the time.
    while (states_.size() > 2 && states_.size() * one > most_bytes_) {
        std::size_t least = 1;
        for (std::size_t k = 1; k + 1 < states_.size(); ++k)
            if (states_[k + 1]->time_s() - states_[k - 1]->time_s() < states_[least + 1]->time_s() - states_[least - 1]->time_s()) least = k;
        states_.erase(states_.begin() + static_cast<std::ptrdiff_t>(least));
    }
}

void Checkpoints::begin_as(const Checkpoints& other, double until_s) {
    const std::scoped_lock lock(mutex_, other.mutex_);
    states_.clear();
    for (const State& s : other.states_)
        if (s->time_s() <= until_s) states_.push_back(s);
    masks_ = other.masks_;
}

std::optional<rehearsal::Rehearsal> Checkpoints::serve(const plan::Plan& plan, double cell_m) const {
    std::vector<State> states;
    std::vector<grid::GreyPicture> masks;
    {
        const std::lock_guard lock(mutex_);
        states = states_, masks = masks_;
    }
    if (states.empty() || states.back()->options().cell_m != cell_m || !same_ground(states.back()->plan(), masks, plan)) return std::nullopt;
    const plan::Values values = plan::values_of(plan);
    for (auto s = states.rbegin(); s != states.rend(); ++s)
        if (auto run = gone_on(**s, values)) {
            run->exchange_masks(masks);
            return run;
        }
    return std::nullopt;
}

std::size_t Checkpoints::count() const {
    const std::lock_guard lock(mutex_);
    return states_.size();
}

} // namespace tidemark::viewer
