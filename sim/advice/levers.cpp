#include "advice/levers.h"

#include "grid/csv.h"
#include "grid/units.h"
#include "plan/schedule.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace tidemark::advice {

namespace {

constexpr double one_s = 600;          ///< a change of time that counts 1
constexpr double long_wait_s = 30;     ///< a wait that is worth looking at
constexpr double unseen_s = 120;       ///< sooner or later, where no patch shows the edge
constexpr double remote = 1;           ///< how much more it counts to change what comes before both washes
constexpr std::size_t most_waits = 2;  ///< of steps before, for one wish
constexpr double factors[] = {0.7, 1.4};

std::string clock(double seconds) { return grid::clock_text(std::round(seconds)); }

/// After the step before it was finished; a stage that it waited for counts as what it took.
std::optional<double> waited_s(const plan::Plan& p, const Outcome& base, int step) {
    if (const auto* after = std::get_if<plan::AfterStep>(&p.steps[step].start))
        return after->wait_s;
    const int before = plan::predecessor(p.steps, step);
    if (before < 0)
        return std::nullopt;
    return std::max(0.0, base.start_s[step] - base.end_s[before]);
}

class Levers {
  public:
    Levers(const plan::Plan& p, const Outcome& base, const sheet::Record& r, const Timing& t) : p_(p), base_(base), record_(r), timing_(t) {}

    std::vector<Lever> all() {
        const std::vector<double> shifts = shifts_s();
        for (const double d_s : shifts)
            begin_otherwise(timing_.step, d_s);
        waits_before(shifts);
        water_of(timing_.step);
        if (timing_.moment.after >= 0)
            water_of(timing_.moment.after);
        wetting();
        return std::move(levers_);
    }

    std::optional<Lever> begun_otherwise(double by_s) {
        begin_otherwise(timing_.step, by_s);
        return levers_.empty() || levers_.back().change.key != "wait" ? std::nullopt : std::optional(levers_.back());
    }

  private:
    const plan::Plan& p_;
    const Outcome& base_;
    const sheet::Record& record_;
    const Timing& timing_;
    std::vector<Lever> levers_;

    void add(int step, const std::string& key, const std::string& value, const std::string& text, double size, std::optional<Shift> shift = {}) {
        levers_.push_back({timing_.want, shift.has_value(), {p_.steps[step].name, key, value, "advice"}, shift.value_or(Shift{}), text, size});
    }

    /// From the planned moment to the nearest that gave the wanted edge, and to the next that did too.
    std::vector<double> shifts_s() const {
        if (!timing_.alike)
            return {-unseen_s, unseen_s};
        std::vector<double> shifts;
        for (const Tried& t : timing_.tries)
            if (t.met)
                shifts.push_back(t.start_s - timing_.planned_s);
        std::sort(shifts.begin(), shifts.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
        while (shifts.size() > 2)
            shifts.pop_back();
        return shifts;
    }

    std::optional<double> wait_s(int step) const { return waited_s(p_, base_, step); }

    void begin_otherwise(int step, double d_s) {
        const std::string way = fmt::format("begin \"{}\" {} {}", p_.steps[step].name, clock(std::abs(d_s)), d_s < 0 ? "sooner" : "later");
        const auto wait = wait_s(step);
        if (wait && *wait + d_s > -0.5) {
            const bool by_stage = std::holds_alternative<plan::WhenStage>(p_.steps[step].start);
            const std::string now = clock(std::max(0.0, *wait + d_s));
            add(step, "wait", now,
                by_stage ? fmt::format("{}: by the clock, {} after the step before it, instead of by the sheen", way, now)
                         : fmt::format("{}: wait {} instead of {}", way, now, clock(*wait)),
                std::abs(d_s) / one_s, Shift{base_.start_s[step], d_s});
        } else if (!wait || step == timing_.step) { // not by a wait: at a minute of its own
            const std::string now = clock(std::max(0.0, base_.start_s[step] + d_s));
            add(step, "at", now, fmt::format("{}: at {} instead of {}", way, now, clock(base_.start_s[step])), std::abs(d_s) / one_s + 0.1,
                Shift{base_.start_s[step], d_s, d_s < 0 ? step : -1});
        }
    }

    const sheet::ActRecord* act_of(int step) const {
        for (const sheet::ActRecord& act : record_.acts)
            if (act.step == step)
                return &act;
        return nullptr;
    }

    /// A drying that ended because its time was over.
    void dry_otherwise(int step, double d_s) {
        const auto& dry = std::get<plan::Dry>(p_.steps[step].act);
        const sheet::ActRecord* act = act_of(step);
        if (act == nullptr || (dry.until && !act->stopped_waiting) || dry.longest_s + d_s < 1)
            return;
        const std::string now = clock(dry.longest_s + d_s);
        add(step, "longest", now,
            fmt::format("let \"{}\" go on {} {}: for {} instead of {}", p_.steps[step].name, clock(std::abs(d_s)), d_s < 0 ? "less" : "longer",
                        now, clock(dry.longest_s)),
            std::abs(d_s) / one_s, Shift{base_.start_s[step], d_s, -1, step});
    }

    /// The steps that it waited for. What lies between the two washes is moved by as much; what lies before both may have
    /// kept the sheet waiting.
    void waits_before(const std::vector<double>& shifts) {
        std::size_t waits = 0;
        for (int k = plan::predecessor(p_.steps, timing_.step); k >= 0 && waits < most_waits; k = plan::predecessor(p_.steps, k)) {
            if (!std::isfinite(base_.start_s[k]) || base_.end_s[k] <= timing_.since_s - 1) {
                shorten(k, waits);
                continue;
            }
            if (std::holds_alternative<plan::Dry>(p_.steps[k].act)) {
                for (const double d_s : shifts)
                    for (const double share : {0.25, 0.5, 1.0})
                        dry_otherwise(k, share * d_s);
                waits += 1;
            }
            if (wait_s(k).value_or(0) < long_wait_s || base_.start_s[k] < timing_.since_s)
                continue;
            for (const double d_s : shifts)
                begin_otherwise(k, d_s);
            waits += 1;
        }
    }

    void shorten(int step, std::size_t& waits) {
        const double wait = wait_s(step).value_or(0);
        if (wait < 2 * long_wait_s)
            return;
        const std::size_t first = levers_.size();
        begin_otherwise(step, -wait / 2);
        begin_otherwise(step, -wait);
        for (std::size_t k = first; k < levers_.size(); ++k)
            levers_[k].size += remote;
        waits += 1;
    }

    void water_of(int step) {
        const auto* wash = std::get_if<plan::Wash>(&p_.steps[step].act);
        for (const double f : factors) {
            if (wash == nullptr)
                return;
            const double was_um = grid::um_from_m(wash->film_m), now_um = std::round(f * was_um);
            add(step, "film_um", fmt::format("{:g}", now_um),
                fmt::format("lay \"{}\" with {:g} g/m² {} water: film_um {:g} instead of {:g}", p_.steps[step].name,
                            std::abs(now_um - was_um), f < 1 ? "less" : "more", now_um, was_um),
                2 * std::abs(std::log2(f)));
        }
    }

    /// The last wetting before it.
    void wetting() {
        int last = -1;
        for (int k = 0; k < static_cast<int>(p_.steps.size()); ++k)
            if (std::holds_alternative<plan::Wet>(p_.steps[k].act) && base_.start_s[k] < timing_.planned_s &&
                (last < 0 || base_.start_s[k] > base_.start_s[last]))
                last = k;
        if (last < 0)
            return;
        const auto& wet = std::get<plan::Wet>(p_.steps[last].act);
        const double was = grid::g_m2_from_kg_m2(wet.water_kg_m2);
        for (const double f : factors) {
            const double now = std::round(f * was);
            add(last, "water_g_m2", fmt::format("{:g}", now),
                fmt::format("\"{}\" with {:g} g/m² {} water: {:g} instead of {:g}", p_.steps[last].name, std::abs(now - was),
                            f < 1 ? "less" : "more", now, was),
                2 * std::abs(std::log2(f)));
        }
        const bool both = wet.side == plan::Side::both;
        add(last, "side", both ? "front" : "both",
            fmt::format("\"{}\": {}", p_.steps[last].name, both ? "only the front, not both faces" : "both faces, so that it stays open longer"), 2);
    }
};

} // namespace

std::string Lever::keys() const { return fmt::format("{}.{}={}", change.step, change.key, change.value); }

std::vector<Lever> levers_for(const plan::Plan& p, const Outcome& base, const sheet::Record& record, const Timing& timing) {
    if (timing.step < 0)
        return {};
    return Levers(p, base, record, timing).all();
}

std::optional<Lever> begun_otherwise(const plan::Plan& p, const Outcome& base, const sheet::Record& record, const Timing& timing, double by_s) {
    return Levers(p, base, record, timing).begun_otherwise(by_s);
}

double wait_of(const plan::Plan& p, const Outcome& base, int step) { return waited_s(p, base, step).value_or(0); }

} // namespace tidemark::advice
