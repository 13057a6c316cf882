#include "advice/moments.h"

#include "grid/csv.h"
#include "grid/units.h"
#include "judge/windows.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tidemark::advice {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double least_span_s = 1800, fine_s = 15, fine_share = 0.125;
constexpr double shares[] = {0, 1. / 16, 1. / 4, 1};
constexpr int rounds = 2;
constexpr double small_mm = 40, large_mm = 100; ///< sides of a patch; the larger for a wish that was not met
constexpr double same_place = 0.1; ///< share of a wash's cells that an earlier act has wetted

/// The share of `later` that `earlier` touched too.
double overlap(const sheet::ActRecord& earlier, const sheet::ActRecord& later) {
    double all = 0, both = 0;
    const sheet::CellFrame& f = later.cells.frame();
    for (int j = f.j0; j < f.j1; ++j)
        for (int i = f.i0; i < f.i1; ++i)
            if (later.cells.touched(i, j)) {
                all += 1;
                both += earlier.cells.touched(i, j) ? 1 : 0;
            }
    return all > 0 ? both / all : 0;
}

/// The last act before this wash that brought water to the neighbour, or if there is none, to its own place.
const sheet::ActRecord* met_water(const plan::Plan& p, const sheet::Record& r, const judge::Edge& e) {
    const sheet::ActRecord *own = nullptr, *on_neighbour = nullptr, *on_place = nullptr;
    for (const sheet::ActRecord& act : r.acts)
        if (act.step == e.step)
            own = &act;
    for (const sheet::ActRecord& act : r.acts) {
        if (own == nullptr || &act == own)
            break;
        if (!(act.water_kg > 0))
            continue;
        const plan::Step& step = p.steps[act.step];
        if (step.name == e.neighbour || plan::area_name(p, step.area()) == e.neighbour)
            on_neighbour = &act;
        if (overlap(act, *own) >= same_place)
            on_place = &act;
    }
    return on_neighbour != nullptr ? on_neighbour : on_place;
}

Tried tried_of(const Outcome& o, const Timing& t) {
    const int step = t.patch.step_of(t.step);
    Tried tried{o.start_s[step] - t.patch.pieces[step].first_s, {}, o.wants[t.want].met};
    if (const judge::Edge* e = o.edge_of(t.want); e != nullptr && e->step == step)
        tried.edge = *e;
    else
        tried.met = false;
    return tried;
}

void add(Timing& timing, const Tried& t) {
    const auto at = std::find_if(timing.tries.begin(), timing.tries.end(), [&](const Tried& o) { return o.start_s > t.start_s - 0.5; });
    if (at == timing.tries.end() || at->start_s > t.start_s + 0.5)
        timing.tries.insert(at, t);
}

/// The tries next to each other, all met, that hold the planned moment or lie nearest to it; empty: none is met.
struct Run {
    int first = 0, last = -1;
};
Run nearest_met(const Timing& t) {
    Run best;
    double nearest_s = std::numeric_limits<double>::infinity();
    for (int k = 0; k < static_cast<int>(t.tries.size()); ++k) {
        if (!t.tries[k].met)
            continue;
        Run run{k, k};
        while (run.last + 1 < static_cast<int>(t.tries.size()) && t.tries[run.last + 1].met)
            ++run.last;
        const double off_s = std::max({0.0, t.tries[run.first].start_s - t.planned_s, t.planned_s - t.tries[run.last].start_s});
        if (off_s < nearest_s)
            best = run, nearest_s = off_s;
        k = run.last;
    }
    return best;
}

/// Moments that would tell more exactly where the verdict changes.
std::vector<double> between(const Timing& t) {
    std::vector<double> moments;
    const Run run = nearest_met(t);
    if (run.last < run.first)
        return moments;
    const auto halve = [&](int k) {
        if (k < 0 || k + 1 >= static_cast<int>(t.tries.size()))
            return;
        const double a = t.tries[k].start_s, b = t.tries[k + 1].start_s;
        if (b - a > std::max(fine_s, fine_share * (b - t.since_s)))
            moments.push_back(std::round(0.5 * (a + b)));
    };
    halve(run.first - 1);
    halve(run.last);
    return moments;
}

/// The wash at another moment.
Trial begun_at(const plan::Plan& p, const Timing& t, double start_s) {
    const double by_s = start_s - t.planned_s;
    return {t.patch.values(as_planned(p), {t.planned_s, by_s, by_s < 0 ? t.step : -1}), t.patch.stop_after};
}

void try_all(const Trials& trials, const plan::Plan& p, const std::vector<double>& moments, Timing& t) {
    std::vector<Trial> all;
    for (const double start_s : moments)
        all.push_back(begun_at(p, t, start_s));
    for (const Outcome& o : trials.play(fmt::format("when to begin \"{}\"", p.steps[t.step].name), all))
        if (std::isfinite(o.start_s[t.patch.step_of(t.step)]))
            add(t, tried_of(o, t));
}

std::string at(double minutes) { return grid::clock_text(60 * minutes); }

std::string said(const judge::Moment& m, std::size_t tries) {
    if (m.step < 0) return "not judged";
    if (m.after < 0) return "any time: nothing wet lies there before";
    if (std::isnan(m.tried_from_min)) return "not known: a patch of the sheet by itself gives another edge";
    if (!m.any) return fmt::format("at none of {} moments tried, {} to {}", tries, at(m.tried_from_min), at(m.tried_to_min));
    const bool early = std::isnan(m.earliest_min), late = std::isnan(m.latest_min);
    if (early && late) return fmt::format("any time from {} on", at(m.tried_from_min));
    if (early) return "until " + at(m.latest_min);
    if (late) return fmt::format("from {} on", at(m.earliest_min));
    return fmt::format("from {} to {}", at(m.earliest_min), at(m.latest_min));
}

void conclude(Timing& t, double cell_m) {
    judge::Moment& m = t.moment;
    m.want = t.want, m.step = t.step, m.planned_min = grid::min_from_s(t.planned_s);
    m.cell_mm = cell_m * 1e3;
    m.tried_from_min = m.tried_to_min = m.earliest_min = m.latest_min = none;
    if (!t.tries.empty()) {
        const Run run = nearest_met(t);
        const int end = static_cast<int>(t.tries.size()) - 1;
        m.any = run.first <= run.last;
        m.tried_from_min = grid::min_from_s(t.tries.front().start_s), m.tried_to_min = grid::min_from_s(t.tries.back().start_s);
        if (m.any && run.first > 0) m.earliest_min = grid::min_from_s(t.tries[run.first].start_s);
        if (m.any && run.last < end) m.latest_min = grid::min_from_s(t.tries[run.last].start_s);
    }
    m.says = said(m, t.tries.size());
}

double dry_s(const std::vector<judge::Window>& windows, int step) {
    for (const judge::Window& w : windows)
        if (w.step == step && std::isfinite(w.dry_min))
            return 60 * w.dry_min;
    return 0;
}

/// The middle of the longest stretch that has the edge's own word.
judge::Place_mm telling_place(const judge::Edge& e) {
    const judge::Stretch* longest = nullptr;
    for (const judge::Stretch& s : e.stretches)
        if (s.word == e.word && (longest == nullptr || s.length_mm > longest->length_mm))
            longest = &s;
    return longest != nullptr ? longest->middle : judge::Place_mm{e.x_mm, e.y_mm};
}

/// Of one wish.
class Clock {
  public:
    Clock(const plan::Plan& p, const Outcome& found, const sheet::Record& r, int threads, const Tell& tell)
        : p_(p), found_(found), record_(r), threads_(threads), tell_(tell), patches_(p, r), windows_(judge::judge_windows(p, r)) {}

    Timing of(int want) const {
        const Tell of_this = [&](const std::string& what, const rehearsal::BranchProgress& progress) {
            return tell_(fmt::format("edge {} of {}, {}", want + 1, p_.wants.size(), what), progress);
        };
        Timing t;
        t.want = want;
        const judge::Edge* e = found_.edge_of(want);
        if (e == nullptr)
            return t;
        t.step = e->step, t.planned_s = found_.start_s[e->step];
        t.moment.met = found_.wants[want].met;
        const sheet::ActRecord* water = met_water(p_, record_, *e);
        if (water != nullptr)
            t.moment.after = water->step, t.since_s = std::min(water->end_s, t.planned_s);
        for (const double side_mm : {small_mm, large_mm}) {
            if (t.alike || (side_mm > small_mm && t.moment.met))
                break;
            look_at(*e, side_mm, of_this, t);
            if (t.alike && water != nullptr)
                try_around(Trials(t.patch.plan, patch_cell_m(record_), threads_, of_this), t);
        }
        return t;
    }

  private:
    const plan::Plan& p_;
    const Outcome& found_;
    const sheet::Record& record_;
    int threads_;
    const Tell& tell_;
    Patches patches_;
    std::vector<judge::Window> windows_;

    /// Paints the patch as planned.
    void look_at(const judge::Edge& e, double side_mm, const Tell& tell, Timing& t) const {
        const judge::Place_mm place = telling_place(e);
        t.patch = patches_.around(place.x_mm, place.y_mm, side_mm, e.step);
        const Trials trials(t.patch.plan, patch_cell_m(record_), threads_, tell);
        t.planned = trials.play("a patch of the sheet as planned", {Trial{t.patch.values(as_planned(p_)), t.patch.stop_after}}).front();
        const judge::Edge* here = t.planned.edge_of(t.want);
        t.alike = here != nullptr && here->step == t.patch.step_of(t.step) && here->word == e.word;
    }

    void try_around(const Trials& trials, Timing& t) const {
        t.tries.push_back(tried_of(t.planned, t));
        const double to_s = std::max({t.since_s + least_span_s, t.planned_s, dry_s(windows_, t.moment.after)});
        std::vector<double> moments;
        for (const double share : shares)
            moments.push_back(std::round(t.since_s + share * (to_s - t.since_s)));
        for (int round = 0; round <= rounds && !moments.empty(); ++round) {
            try_all(trials, p_, moments, t);
            moments = between(t);
        }
    }
};

} // namespace

double patch_cell_m(const sheet::Record& r) { return std::max(r.cell_m, 0.5e-3); }

void hold_to_sheet(Timing& t, const Outcome& found, const std::vector<Tried>& on_sheet, double cell_m) {
    if (on_sheet.empty())
        return;
    const Run run = nearest_met(t);
    const auto on_patch = [&](double start_s) {
        return run.first <= run.last && start_s >= t.tries[run.first].start_s - 1 && start_s <= t.tries[run.last].start_s + 1;
    };
    const auto contradicts = [&](const Tried& s) { return s.met != on_patch(s.start_s); };
    if (t.alike && std::none_of(on_sheet.begin(), on_sheet.end(), contradicts))
        return;
    t.tries.clear();
    add(t, {found.start_s[t.step], *found.edge_of(t.want), found.wants[t.want].met});
    for (const Tried& s : on_sheet)
        add(t, s);
    t.planned_s = found.start_s[t.step];
    conclude(t, cell_m);
}

std::vector<Timing> try_moments(const plan::Plan& p, const Outcome& found, const sheet::Record& record, int threads, const Tell& tell) {
    const Clock clock(p, found, record, threads, tell);
    std::vector<Timing> timings;
    for (int w = 0; w < static_cast<int>(p.wants.size()); ++w) {
        timings.push_back(clock.of(w));
        conclude(timings.back(), patch_cell_m(record));
    }
    return timings;
}

} // namespace tidemark::advice
