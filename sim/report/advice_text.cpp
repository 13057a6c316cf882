#include "report/advice_text.h"

#include "grid/csv.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

bool all_met(const std::vector<judge::WantVerdict>& wants) {
    return std::all_of(wants.begin(), wants.end(), [](const judge::WantVerdict& w) { return w.met; });
}

/// From the planned moment to where the edge is no longer as wanted; NaN: to neither side.
double spare_min(const judge::Moment& m) { return std::fmin(m.planned_min - m.earliest_min, m.latest_min - m.planned_min); }

bool little_time(const judge::Moment& m) {
    const double has_min = m.latest_min - m.earliest_min;
    return m.any && spare_min(m) < (std::isnan(has_min) ? 1 : std::fmax(1, has_min / 8));
}

std::string moments_text(const plan::Plan& p, const std::vector<judge::Moment>& moments) {
    std::string text;
    for (const judge::Moment& m : moments) {
        if (m.step < 0 || m.after < 0 || (m.met && !little_time(m)))
            continue;
        const plan::Want& want = p.wants[m.want];
        text += fmt::format("  {} | {}: {} {}; \"{}\" began at {}\n", want.first, want.second, plan::word(want.edge), m.says,
                            p.steps[m.step].name, grid::clock_text(60 * m.planned_min));
    }
    return text.empty() ? text : "When to begin (not as wanted, or little time to spare; all in moments.csv):\n" + text;
}

std::string changes_text(const std::vector<judge::Advice>& advice) {
    std::string text = "Advice, each piece tried:\n";
    for (std::size_t k = 0; k < advice.size(); ++k)
        text += fmt::format("  {}. {}\n     {}. Then {}\n", k + 1, advice[k].change, advice[k].found, advice[k].instead);
    return advice.empty() ? "Advice: no change that was tried helps without spoiling another edge\n" : text;
}

double hundredths(double v) { return std::isfinite(v) ? std::round(100 * v) / 100 : v; }

} // namespace

std::string advice_text(const plan::Plan& p, const judge::Verdicts& v) {
    const bool met = all_met(v.wants);
    if (!v.advice)
        return met ? std::string{} : "With --advise it is tried what would mend them\n";
    return (met ? std::string{} : changes_text(*v.advice)) + moments_text(p, v.moments);
}

std::string advice_table(const std::vector<judge::Advice>& advice) {
    grid::CsvWriter csv({"rank", "change", "now", "instead", "vary"});
    for (std::size_t k = 0; k < advice.size(); ++k) {
        csv.number(static_cast<double>(k + 1)).cell(advice[k].change).cell(advice[k].found).cell(advice[k].instead);
        csv.cell(advice[k].keys);
        csv.end_row();
    }
    return csv.text();
}

std::string moments_table(const plan::Plan& p, const std::vector<judge::Moment>& moments) {
    const auto name = [&](int step) { return step < 0 ? std::string{} : p.steps[step].name; };
    grid::CsvWriter csv({"first", "second", "wanted", "step", "as_wanted", "planned_min", "earliest_min", "latest_min",
                         "tried_from_min", "tried_to_min", "after", "cell_mm", "says"});
    for (const judge::Moment& m : moments) {
        const plan::Want& want = p.wants[m.want];
        csv.cell(want.first).cell(want.second).cell(plan::word(want.edge)).cell(name(m.step));
        csv.cell(m.step < 0 ? "" : m.met ? "yes" : "no").number(m.step < 0 ? NAN : hundredths(m.planned_min));
        for (const double minutes : {m.earliest_min, m.latest_min, m.tried_from_min, m.tried_to_min})
            csv.number(hundredths(minutes));
        csv.cell(name(m.after)).number(std::isnan(m.tried_from_min) ? NAN : m.cell_mm).cell(m.says);
        csv.end_row();
    }
    return csv.text();
}

} // namespace tidemark::report
