// What the record holds of a stretch of outline, and how a painter would say it.
#include "grid/csv.h"
#include "grid/units.h"
#include "judge/median_detail.h"
#include "judge/stretches_detail.h"
#include "sheet/stage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <optional>

namespace tidemark::judge {

namespace {

using Places = std::vector<const BorderPlace*>;

constexpr double came_along = 0.5;  ///< of a stretch: an act that touched as much of it came there
constexpr double in_one_go_min = 1; ///< a stretch laid within that time has one moment

bool touched(const sheet::ActRecord& act, const CellAt& c) { return act.cells.touched(c.first, c.second); }
double minute_at(const sheet::ActRecord& act, const CellAt& c) {
    return grid::min_from_s(act.start_s + act.cells.after_s(c.first, c.second));
}

/// An act at a stretch.
struct Came {
    std::array<int, 4> met{};
    std::vector<double> minutes;
    plan::Stage stage() const {
        return static_cast<plan::Stage>(std::max_element(met.begin(), met.end()) - met.begin());
    }
    double share() const {
        return static_cast<double>(*std::max_element(met.begin(), met.end())) / static_cast<double>(minutes.size());
    }
};
void look(const sheet::ActRecord& act, const CellAt& c, Came& came) {
    if (!touched(act, c))
        return;
    ++came.met[static_cast<std::size_t>(act.cells.met(c.first, c.second))];
    came.minutes.push_back(minute_at(act, c));
}

std::string clock(double minute) { return grid::clock_text(grid::s_from_min(minute)); }

/// The stage that an area as a whole was in: the last sample before.
std::optional<plan::Stage> stage_of_area(const sheet::Record& record, int area, double minute) {
    const sheet::StageSample* last = nullptr;
    for (const auto& s : record.stages)
        if (s.area == area && s.time_s <= grid::s_from_min(minute) + 1e-9)
            last = &s;
    if (last == nullptr)
        return std::nullopt;
    for (const auto stage : {sheet::CellStage::dry, sheet::CellStage::damp, sheet::CellStage::moist})
        if (sheet::has_reached(last->share, stage))
            return static_cast<plan::Stage>(stage);
    return plan::Stage::wet;
}

/// "was softened", "had drops put to it" ...; empty for acts that make no edge.
const char* what_came(const plan::Act& act) {
    if (std::holds_alternative<plan::Soften>(act))
        return "softened";
    if (std::holds_alternative<plan::Charge>(act))
        return "charged";
    if (std::holds_alternative<plan::Lift>(act))
        return "lifted";
    if (std::holds_alternative<plan::Spatter>(act))
        return "spattered";
    if (std::holds_alternative<plan::Spray>(act))
        return "sprayed";
    if (std::holds_alternative<plan::Wet>(act))
        return "wetted";
    if (std::holds_alternative<plan::Wash>(act))
        return "washed over";
    if (std::holds_alternative<plan::Drybrush>(act) || std::holds_alternative<plan::Body>(act))
        return "painted over";
    return "";
}

/// The neighbour's own paint beside it: laid before, so what was it like then; or afterwards, and what was this like.
std::string beside(const BorderOf& of, int neighbour, const Places& along, double laid_min) {
    if (neighbour == bare_paper)
        return {};
    const PaintedArea& other = of.map.areas[neighbour];
    std::string text;
    bool before = false;
    for (const sheet::ActRecord& act : of.record.acts) {
        const plan::Step& step = of.plan.steps[act.step];
        if (!paints(step) || step.area() != other.area || act.step == of.step)
            continue;
        Came came;
        for (const BorderPlace* p : along)
            look(act, p->outside, came);
        if (static_cast<double>(came.minutes.size()) < came_along * static_cast<double>(along.size()))
            continue;
        const double minute = median(came.minutes);
        if (minute <= laid_min) {
            before = true;
            continue;
        }
        const auto stage = stage_of_area(of.record, of.map.areas[of.own].area, minute);
        text += fmt::format("; \"{}\" came up to it at {}{}", step.name, clock(minute),
                            stage ? fmt::format(", when it was {}", plan::word(*stage)) : "");
    }
    const auto then = stage_of_area(of.record, other.area, laid_min);
    if (before && then)
        text = fmt::format(", when {} was {}", other.names.front(), plan::word(*then)) + text;
    return text;
}

/// What came to it later, other than the neighbour's paint.
std::string later(const BorderOf& of, int neighbour, const Places& along, double laid_min) {
    std::string text;
    for (const sheet::ActRecord& act : of.record.acts) {
        const plan::Step& step = of.plan.steps[act.step];
        const std::string what = what_came(step.act);
        const bool neighbours =
            neighbour != bare_paper && paints(step) && step.area() == of.map.areas[neighbour].area;
        if (what.empty() || act.step == of.step || neighbours)
            continue;
        Came came;
        for (const BorderPlace* p : along)
            look(act, p->inside, came);
        if (static_cast<double>(came.minutes.size()) < came_along * static_cast<double>(along.size()))
            continue;
        if (const double minute = median(came.minutes); minute > laid_min)
            text +=
                fmt::format("; {} at {}, when {} (\"{}\")", what, clock(minute), plan::word(came.stage()), step.name);
    }
    return text;
}

} // namespace

void say_what_the_record_holds(const BorderOf& of, int neighbour, const Places& along, Stretch& s) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    Came came;
    for (const sheet::ActRecord& act : of.record.acts)
        if (act.step == of.step)
            for (const BorderPlace* p : along)
                look(act, p->inside, came);
    s.laid_min = s.laid_from_min = s.laid_to_min = none;
    const std::string& area = of.map.areas[of.own].names.front();
    const std::string percent = s.share < 0.005 ? "under 1" : fmt::format("{:.0f}", 100 * s.share);
    const std::string share = fmt::format("{} % of the outline of {}", percent, area);
    if (came.minutes.empty()) {
        s.why = share;
        return;
    }
    s.met = plan::word(came.stage()), s.met_share = came.share();
    s.laid_min = median(came.minutes);
    const auto [first, last] = std::minmax_element(came.minutes.begin(), came.minutes.end());
    s.laid_from_min = *first, s.laid_to_min = *last;
    const std::string when = *last - *first <= in_one_go_min
                                 ? "at " + clock(s.laid_min)
                                 : fmt::format("from {} to {}", clock(*first), clock(*last));
    const std::string on = s.met_share > 0.995 ? "" : fmt::format(" along {:.0f} % of it", 100 * s.met_share);
    s.why = fmt::format("laid {} on {} paper{}", when, s.met, on) + beside(of, neighbour, along, s.laid_min) +
            later(of, neighbour, along, s.laid_min) + "; " + share;
}

} // namespace tidemark::judge
