#include "advice/advise.h"

#include "advice/levers.h"
#include "grid/problem.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <limits>
#include <map>
#include <set>

namespace tidemark::advice {

namespace {

constexpr std::size_t most_said = 5, most_run_whole = 6, most_alike = 2;
constexpr double long_wait_s = 60, narrow_s = 30;
constexpr int halvings = 2;

/// How far an edge is from a word, in octaves of width; 0: it is that.
double off(const judge::Edge& e, plan::EdgeWord wanted) {
    const judge::EdgeRules rules;
    if (e.word == plan::word(wanted))
        return 0;
    if (wanted == plan::EdgeWord::lost && e.delta_L < 2 * rules.lost_below_L) // its tone may be nearer than its width
        return std::min(std::log2(e.delta_L / rules.lost_below_L), std::isnan(e.width_mm) ? 9 : std::log2(rules.lost_above_mm / e.width_mm));
    if (std::isnan(e.width_mm))
        return 2; // lost by its tone: width can't tell
    const auto beyond = [&](double from_mm, double to_mm) {
        const double width_mm = std::max(e.width_mm, 0.1);
        return std::max({0.0, std::log2(from_mm / width_mm), std::log2(width_mm / to_mm)});
    };
    switch (wanted) {
    case plan::EdgeWord::hard: return beyond(0.1, rules.firm_from_mm);
    case plan::EdgeWord::firm: return beyond(rules.firm_from_mm, rules.soft_from_mm);
    case plan::EdgeWord::soft: return beyond(rules.soft_from_mm, rules.lost_above_mm);
    case plan::EdgeWord::lost: return beyond(rules.lost_above_mm, 1e9);
    }
    return 0;
}

struct Gain {
    std::vector<int> mended;
    bool nearer = false; ///< the lever's own wish
    bool loses = false;  ///< a wish that was met
    bool any() const { return !loses && (nearer || !mended.empty()); }
};

/// A verdict that was tipped by a hair: the widths are a seventh apart, or less.
bool by_a_hair(const judge::Edge* was, const judge::Edge* now) {
    return was != nullptr && now != nullptr && std::abs(std::log2(std::max(was->width_mm, 0.1) / std::max(now->width_mm, 0.1))) < 0.2;
}

/// A wish that is not judged in both counts for nothing, unless it was met and is gone.
Gain gain_of(const plan::Plan& p, const Outcome& was, const Outcome& now, int want) {
    Gain gain;
    for (int w = 0; w < static_cast<int>(p.wants.size()); ++w) {
        if (!was.wants[w].met && now.wants[w].met && !by_a_hair(was.edge_of(w), now.edge_of(w)))
            gain.mended.push_back(w);
        gain.loses = gain.loses || (was.wants[w].met && !now.wants[w].met);
    }
    const judge::Edge *before = was.edge_of(want), *after = now.edge_of(want);
    if (before != nullptr && after != nullptr && !was.wants[want].met)
        gain.nearer = !by_a_hair(before, after) && off(*after, p.wants[want].edge) <= 0.5 * off(*before, p.wants[want].edge);
    return gain;
}

double weight_of(const Gain& gain, const Lever& lever) {
    return 2 * static_cast<double>(gain.mended.size()) + (gain.nearer ? 1 : 0) - lever.size / (1 + lever.size);
}

std::string edge_text(const judge::Edge& e) {
    const bool told = !std::isnan(e.width_mm) && e.word != "lost" && e.word != "hard"; // of hard, cells may not tell
    return !told ? e.word : fmt::format("{} ({:.1f} mm)", e.word, e.width_mm);
}

struct Candidate {
    Lever lever;
    plan::Values changed; ///< without the masks, which are the plan's
    Gain gain;
    double weight = 0;
};

/// One that was played on the whole sheet.
struct Played {
    Candidate c;
    Outcome outcome;
};

class Adviser {
  public:
    Adviser(const Rehearsed& r, const Tell& tell)
        : r_(r), tell_(tell), plan_(r.plans.base()),
          found_(outcome_of(plan_, r.record, r.verdicts.edges, r.verdicts.wants)) {}

    Advised advise() const {
        std::vector<Timing> timings = try_moments(plan_, found_, r_.record, r_.threads, tell_);
        std::vector<Candidate> candidates;
        for (const Timing& t : timings)
            if (open(t))
                screen(t, candidates);
        std::vector<Candidate> best = in_turn(best_first(std::move(candidates)), most_run_whole);
        for (const Timing& t : timings)
            if (open(t))
                add_at_once(t, best);
        std::vector<Played> played = play_whole(std::move(best));
        for (int k = 0; k < halvings; ++k) {
            std::vector<Played> more = play_whole(between(timings, played));
            std::move(more.begin(), more.end(), std::back_inserter(played));
        }
        Advised all;
        for (Timing& t : timings) {
            hold_to_sheet(t, found_, tried_on_sheet(t, played), r_.cell_m);
            all.moments.push_back(t.moment);
        }
        all.advice = said(std::move(played));
        return all;
    }

  private:
    const Rehearsed& r_;
    const Tell& tell_;
    const plan::Plan& plan_;
    const Outcome found_; ///< what the painter was told

    std::vector<Candidate> candidates_for(const Timing& t) const {
        std::vector<Candidate> all;
        for (const Lever& lever : levers_for(plan_, found_, r_.record, t))
            try {
                all.push_back({lever, plan::values_of(r_.plans.with({lever.change})), {}, 0});
            } catch (const grid::BadInput&) { // beyond what a plan may say
            }
        return all;
    }

    /// Those that help on the patch; all of them, as hopes, where the patch doesn't show what the sheet does. A change that
    /// helps several wishes counts for all.
    void screen(const Timing& t, std::vector<Candidate>& helpful) const {
        std::vector<Candidate> all = candidates_for(t);
        std::vector<Outcome> outcomes;
        if (t.alike) {
            std::vector<Trial> tries;
            for (const Candidate& c : all)
                tries.push_back({t.patch.values(c.changed, c.lever.shift), t.patch.stop_after});
            outcomes = Trials(t.patch.plan, patch_cell_m(r_.record), r_.threads, tell_).play("changes on a patch of the sheet", tries);
        }
        for (std::size_t k = 0; k < all.size(); ++k) {
            Gain gain{{}, !t.alike, false};
            if (t.alike)
                gain = gain_on_patch(t, outcomes[k]);
            if (!gain.any())
                continue;
            const auto known = std::find_if(helpful.begin(), helpful.end(), [&](const Candidate& c) { return c.lever.keys() == all[k].lever.keys(); });
            Candidate& c = known != helpful.end() ? *known : helpful.emplace_back(std::move(all[k]));
            c.gain.mended.insert(c.gain.mended.end(), gain.mended.begin(), gain.mended.end());
            c.gain.nearer = c.gain.nearer || gain.nearer;
            c.weight = weight_of(c.gain, c.lever) - (t.alike ? 0 : 1);
        }
    }

    /// Of its own wish: what becomes of the others is seen on the whole sheet.
    Gain gain_on_patch(const Timing& t, const Outcome& now) const {
        Gain gain = gain_of(plan_, t.planned, now, t.want);
        std::erase_if(gain.mended, [&](int w) { return w != t.want; });
        gain.loses = false;
        return gain;
    }

    void weigh(Candidate& c, const Outcome& was, const Outcome& now) const {
        c.gain = gain_of(plan_, was, now, c.lever.want);
        std::erase_if(c.gain.mended, [&](int w) { return found_.wants[w].met; });
        c.weight = weight_of(c.gain, c.lever);
    }

    static std::vector<Candidate> best_first(std::vector<Candidate> all) {
        std::erase_if(all, [](const Candidate& c) { return !c.gain.any(); });
        std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) { return a.weight > b.weight; });
        return all;
    }

    /// In turn one for each wish, so that none keeps the others out; of the same key of the same step two values at most.
    static std::vector<Candidate> in_turn(std::vector<Candidate> all, std::size_t most) {
        std::vector<Candidate> some;
        std::map<std::string, std::size_t> alike;
        while (some.size() < most && !all.empty()) {
            std::set<int> served;
            std::vector<Candidate> later;
            for (Candidate& c : all) {
                const std::string key = c.lever.change.step + "." + c.lever.change.key;
                if (served.count(c.lever.want) != 0 || some.size() >= most)
                    later.push_back(std::move(c));
                else if (++alike[key] <= most_alike) {
                    served.insert(c.lever.want);
                    some.push_back(std::move(c));
                }
            }
            all = std::move(later);
        }
        return some;
    }

    bool open(const Timing& t) const { return t.step >= 0 && !found_.wants[t.want].met; }

    void add(const std::optional<Lever>& lever, std::vector<Candidate>& all) const {
        const auto known = [&](const Candidate& c) { return lever && c.lever.keys() == lever->keys(); };
        if (lever && std::none_of(all.begin(), all.end(), known))
            all.push_back({*lever, plan::values_of(r_.plans.with({lever->change})), {}, 0});
    }

    /// A wash that waits long, and whose edge is narrower than wanted: on wet paper a patch is a poor guide, so what comes of
    /// no wait at all is looked at on the sheet.
    void add_at_once(const Timing& t, std::vector<Candidate>& all) const {
        const double wait_s = wait_of(plan_, found_, t.step);
        const judge::Edge& e = *found_.edge_of(t.want);
        const plan::EdgeWord wanted = plan_.wants[t.want].edge;
        const bool narrower = wanted == plan::EdgeWord::lost || (wanted == plan::EdgeWord::soft && e.word != "lost") ||
                              (wanted == plan::EdgeWord::firm && e.word == "hard");
        if (narrower && wait_s >= long_wait_s)
            add(begun_otherwise(plan_, found_, r_.record, t, -wait_s), all);
    }

    std::vector<Played> play_whole(std::vector<Candidate> candidates) const {
        std::vector<Trial> tries;
        for (const Candidate& c : candidates)
            tries.push_back({c.changed});
        std::vector<Outcome> outcomes = Trials(plan_, r_.cell_m, r_.threads, tell_).play("the best of them on the whole sheet", tries);
        std::vector<Played> played;
        for (std::size_t k = 0; k < candidates.size(); ++k) {
            weigh(candidates[k], found_, outcomes[k]);
            played.push_back({std::move(candidates[k]), std::move(outcomes[k])});
        }
        return played;
    }

    /// The wash of this wish begun otherwise.
    std::vector<Tried> tried_on_sheet(const Timing& t, const std::vector<Played>& played) const {
        std::vector<Tried> tries;
        for (const Played& p : played)
            if (t.step >= 0 && p.c.lever.of_start_of(plan_.steps[t.step].name)) {
                const judge::Edge* e = p.outcome.edge_of(t.want);
                const bool own = e != nullptr && e->step == t.step;
                tries.push_back({p.outcome.start_s[t.step], own ? *e : judge::Edge{}, own && p.outcome.wants[t.want].met});
            }
        return tries;
    }

    /// For each wish that a moment mends: half way from there to the nearest, on the planned side, that doesn't.
    std::vector<Candidate> between(const std::vector<Timing>& timings, const std::vector<Played>& played) const {
        std::vector<Candidate> all;
        for (const Timing& t : timings) {
            if (!open(t))
                continue;
            const double planned_s = found_.start_s[t.step];
            double met_s = std::numeric_limits<double>::infinity(), not_s = 0; // off the planned moment
            const std::vector<Tried> tries = tried_on_sheet(t, played);
            for (const Tried& s : tries)
                if (s.met && std::abs(s.start_s - planned_s) < std::abs(met_s))
                    met_s = s.start_s - planned_s;
            for (const Tried& s : tries) {
                const double off_s = s.start_s - planned_s;
                if (!s.met && off_s * met_s > 0 && std::abs(off_s) < std::abs(met_s) && std::abs(off_s) > std::abs(not_s))
                    not_s = off_s;
            }
            if (std::isfinite(met_s) && std::abs(met_s - not_s) > narrow_s)
                add(begun_otherwise(plan_, found_, r_.record, t, 0.5 * (met_s + not_s)), all);
        }
        return all;
    }

    std::vector<judge::Advice> said(std::vector<Played> played) const {
        std::erase_if(played, [](const Played& p) { return !p.c.gain.any(); });
        std::stable_sort(played.begin(), played.end(), [](const Played& a, const Played& b) { return a.c.weight > b.c.weight; });
        std::vector<judge::Advice> advice;
        std::set<std::string> known; // of one step's start, or of one of its keys, the best value
        for (const Played& p : played) {
            const plan::Change& c = p.c.lever.change;
            const std::string what = c.step + (p.c.lever.of_start_of(c.step) ? ".start" : "." + c.key);
            if (advice.size() < most_said && known.insert(what).second)
                advice.push_back(words(p.c, p.outcome));
        }
        return advice;
    }

    judge::Advice words(const Candidate& c, const Outcome& now) const {
        const std::vector<int>& mended = c.gain.mended;
        const bool own = mended.empty() || std::find(mended.begin(), mended.end(), c.lever.want) != mended.end();
        const int want = own ? c.lever.want : mended.front();
        const judge::Edge &before = *found_.edge_of(want), &after = *now.edge_of(want);
        judge::Advice a;
        a.change = c.lever.text;
        a.found = fmt::format("{} | {} comes out {}, you wanted {}", plan_.steps[before.step].name, before.neighbour, edge_text(before),
                              plan::word(plan_.wants[want].edge));
        if (mended.size() > 1)
            a.found += fmt::format("; {} more not as wanted", mended.size() - 1);
        a.instead = fmt::format("{}{}; {} of {} edges as wanted instead of {}", mended.empty() ? "nearer: " : "", edge_text(after), now.met(),
                                now.wants.size(), found_.met());
        a.keys = c.lever.keys();
        a.weight = c.weight;
        return a;
    }
};

} // namespace

std::optional<Advised> advise(const Rehearsed& rehearsed, const Tell& tell) {
    try {
        return Adviser(rehearsed, tell).advise();
    } catch (const Stopped&) {
        return std::nullopt;
    }
}

} // namespace tidemark::advice
