#include "advice/trials.h"

#include "sheet/look.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace tidemark::advice {

namespace {

Outcome judged(const rehearsal::Rehearsal& run) {
    const sheet::Look look = sheet::look(run.sheet(), sheet::LookAs::dried);
    std::vector<judge::Edge> edges = judge::judge_edges(run.plan(), run.record(), look.lstar, run.sheet().geometry);
    std::vector<judge::WantVerdict> wants = judge::judge_wants(run.plan(), run.record(), edges);
    for (judge::Edge& e : edges)
        e.stretches.clear();
    return outcome_of(run.plan(), run.record(), std::move(edges), std::move(wants));
}

} // namespace

int Outcome::met() const {
    return static_cast<int>(std::count_if(wants.begin(), wants.end(), [](const auto& w) { return w.met; }));
}

Outcome outcome_of(const plan::Plan& plan,
                   const sheet::Record& record,
                   std::vector<judge::Edge> edges,
                   std::vector<judge::WantVerdict> wants) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    Outcome o{std::move(edges), std::move(wants), {}, {}};
    o.start_s.assign(plan.steps.size(), none);
    o.end_s.assign(plan.steps.size(), none);
    for (const sheet::ActRecord& act : record.acts) {
        o.start_s[act.step] = act.start_s;
        o.end_s[act.step] = act.end_s;
    }
    return o;
}

plan::Values as_planned(const plan::Plan& p) { return {p.paper, p.room, p.mixes, p.steps}; }

int drying_after(const plan::Plan& plan, int step) {
    for (int k = step + 1; k < static_cast<int>(plan.steps.size()); ++k) {
        const auto* dry = std::get_if<plan::Dry>(&plan.steps[k].act);
        if (dry != nullptr && dry->until == plan::Stage::dry)
            return k;
    }
    return -1;
}

std::vector<Outcome> Trials::play(const std::string& what, const std::vector<Trial>& trials) const {
    std::vector<Outcome> outcomes(trials.size());
    if (trials.empty())
        return outcomes;
    // Who stops last stands first (BranchOptions::stop_after_of).
    std::vector<std::size_t> order(trials.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto end = [&](std::size_t k) {
        const std::vector<int>& steps = trials[k].stop_after;
        return steps.empty() ? std::numeric_limits<int>::max() : *std::max_element(steps.begin(), steps.end());
    };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return end(a) > end(b); });
    std::vector<plan::Values> values;
    rehearsal::BranchOptions options;
    options.run.cell_m = cell_m_;
    options.threads = threads_;
    for (const std::size_t k : order) {
        values.push_back(trials[k].values);
        options.stop_after_of.push_back(trials[k].stop_after);
    }
    const auto times = rehearsal::play_branches(
        base_, values, options, [&](int k, const rehearsal::Rehearsal& run) { outcomes[order[k]] = judged(run); },
        [&](const rehearsal::BranchProgress& p) { return tell_(what, p); });
    if (!times)
        throw Stopped{};
    return outcomes;
}

} // namespace tidemark::advice
