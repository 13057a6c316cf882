#include "report/asked.h"

#include "grid/csv.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <set>

namespace tidemark::report {

namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

bool holds(const std::vector<int>& all, int x) { return std::find(all.begin(), all.end(), x) != all.end(); }

double rounded(double value, double unit) { return std::round(value / unit) * unit; }

/// Whether a wish speaks of one of these steps: by its name, or by the area it paints.
bool speaks_of(const plan::Plan& plan, const plan::Want& want, const std::vector<int>& steps) {
    return std::any_of(steps.begin(), steps.end(), [&](int k) {
        const plan::Step& step = plan.steps[k];
        const std::string area = step.area() >= 0 ? plan.areas[step.area()].name : "";
        return plan::paints(step) && (want.first == step.name || want.second == step.name || want.first == area || want.second == area);
    });
}

std::set<int> steps_with_windows(const Question& question, const std::vector<Asked>& sheets) {
    const int first = question.steps.empty() ? 0 : *std::min_element(question.steps.begin(), question.steps.end());
    std::set<int> steps;
    for (const Asked& a : sheets)
        for (const judge::Window& w : a.windows)
            if (w.step >= first) steps.insert(w.step);
    return steps;
}

const judge::Window* window_of(const Asked& a, int step) {
    const auto w = std::find_if(a.windows.begin(), a.windows.end(), [&](const judge::Window& x) { return x.step == step; });
    return w == a.windows.end() ? nullptr : &*w;
}

} // namespace

std::vector<AskedEdge> asked_edges(const plan::Plan& plan, const Question& question, const std::vector<Asked>& sheets) {
    std::vector<AskedEdge> edges;
    for (std::size_t k = 0; k < plan.wants.size(); ++k) {
        const plan::Want& want = plan.wants[k];
        AskedEdge e{static_cast<int>(k), -1, "", speaks_of(plan, want, question.steps), want.first + " | " + want.second, plan::word(want.edge)};
        edges.push_back(std::move(e));
    }
    std::map<std::pair<int, std::string>, std::string> others; // and the area that has it
    for (const Asked& a : sheets)
        for (const judge::Edge& e : a.edges)
            if (e.want < 0 && holds(question.steps, e.step)) others[{e.step, e.neighbour}] = e.area;
    for (const auto& [where, area] : others) edges.push_back({-1, where.first, where.second, true, area + " | " + where.second, ""});
    return edges;
}

std::vector<AskedEdge> shown_edges(const std::vector<AskedEdge>& edges, const std::vector<Asked>& sheets, std::size_t most) {
    std::vector<AskedEdge> shown;
    const auto judged = [&](const AskedEdge& e) {
        return std::any_of(sheets.begin(), sheets.end(), [&](const Asked& a) { return found(a, e) != nullptr; });
    };
    for (const bool of_varied : {true, false})
        for (const AskedEdge& e : edges)
            if (e.of_varied == of_varied && judged(e) && shown.size() < most && (of_varied || shown.empty() || !shown[0].of_varied))
                shown.push_back(e);
    return shown;
}

const judge::Edge* found(const Asked& a, const AskedEdge& e) {
    if (e.want >= 0) {
        const int edge = a.wants[e.want].edge;
        return edge >= 0 ? &a.edges[edge] : nullptr;
    }
    for (const judge::Edge& x : a.edges)
        if (x.step == e.step && x.neighbour == e.neighbour) return &x;
    return nullptr;
}

std::string found_text(const Asked& a, const AskedEdge& e) {
    const judge::Edge* edge = found(a, e);
    if (edge == nullptr) return "not judged";
    const bool measured = !std::isnan(edge->width_mm) && edge->delta_L >= judge::EdgeRules{}.lost_below_L;
    return measured ? fmt::format("{} {:.1f} mm", edge->word, edge->width_mm) : edge->word + ", sides alike";
}

std::string ask_table(const plan::Plan& plan, const Question& question, const std::vector<Asked>& sheets) {
    const bool days = std::any_of(sheets.begin(), sheets.end(), [](const Asked& a) { return a.day.has_value(); });
    const std::vector<AskedEdge> edges = asked_edges(plan, question, sheets);
    const std::set<int> windows = steps_with_windows(question, sheets);
    std::vector<std::string> header = question.names;
    if (days) header.insert(header.end(), {"day", "humidity_more_pct", "water_times", "pace_times"});
    header.insert(header.end(), {"end_min", "edges_wanted", "edges_met", "weighted_kappa"});
    for (const AskedEdge& e : edges) {
        const std::string wanted = e.wanted.empty() ? "" : " (wanted " + e.wanted + ")";
        header.push_back(e.label + wanted);
        header.push_back(e.label + " width_mm");
    }
    for (const int k : windows)
        for (const char* what : {" wet_from_min", " moist_min", " damp_min", " dry_min"}) header.push_back(plan.steps[k].name + what);
    grid::CsvWriter csv(header);
    int day = 0;
    for (const Asked& a : sheets) {
        for (const std::string& v : a.values) csv.cell(v);
        if (days) {
            day = a.day ? day + 1 : 0; // 0: as planned
            const plan::Day d = a.day.value_or(plan::Day{});
            csv.number(day).number(rounded(100 * d.humidity_more, 0.1)).number(d.water, 4).number(d.pace, 4);
        }
        const auto met = std::count_if(a.wants.begin(), a.wants.end(), [](const judge::WantVerdict& w) { return w.met; });
        csv.number(rounded(a.end_s / 60, 0.01)).number(static_cast<double>(a.wants.size())).number(static_cast<double>(met));
        csv.number(a.painted_whole ? rounded(a.weighted_kappa, 1e-4) : nothing);
        for (const AskedEdge& e : edges) {
            const judge::Edge* edge = found(a, e);
            csv.cell(edge ? edge->word : "").number(edge ? rounded(edge->width_mm, 0.01) : nothing);
        }
        for (const int k : windows) {
            const judge::Window* w = window_of(a, k);
            for (const double minute : {w ? w->wet_from_min : nothing, w ? w->moist_min : nothing, w ? w->damp_min : nothing,
                                        w ? w->dry_min : nothing})
                csv.number(rounded(minute, 0.01));
        }
        csv.end_row();
    }
    return csv.text();
}

std::string Share::text() const {
    std::vector<std::pair<int, std::string>> words{{hard, "hard"}, {firm, "firm"}, {soft, "soft"}, {lost, "lost"}, {not_judged, "not judged"}};
    std::stable_sort(words.begin(), words.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::string text = fmt::format("{} in {} of {}", words[0].second, words[0].first, days);
    for (std::size_t k = 1; k < words.size(); ++k)
        if (words[k].first > 0) text += fmt::format(", {} in {}", words[k].second, words[k].first);
    return text;
}

Share share_of(const std::vector<const Asked*>& days, const AskedEdge& e) {
    Share share;
    share.days = static_cast<int>(days.size());
    std::vector<double> widths;
    for (const Asked* a : days) {
        const judge::Edge* edge = found(*a, e);
        int& count = edge == nullptr         ? share.not_judged
                     : edge->word == "hard" ? share.hard
                     : edge->word == "firm" ? share.firm
                     : edge->word == "soft" ? share.soft
                                            : share.lost;
        ++count;
        if (edge && !std::isnan(edge->width_mm)) widths.push_back(edge->width_mm);
    }
    std::sort(widths.begin(), widths.end());
    const std::size_t n = widths.size();
    share.least_mm = n ? widths.front() : nothing;
    share.most_mm = n ? widths.back() : nothing;
    share.median_mm = n ? 0.5 * (widths[(n - 1) / 2] + widths[n / 2]) : nothing;
    return share;
}

std::string uncertain_table(const plan::Plan& plan, const Question& question, const std::vector<Asked>& sheets) {
    std::vector<std::string> header = question.names;
    header.insert(header.end(), {"edge", "wanted", "days", "hard", "firm", "soft", "lost", "not_judged", "width_least_mm",
                                 "width_median_mm", "width_most_mm"});
    grid::CsvWriter csv(header);
    const std::vector<AskedEdge> edges = asked_edges(plan, question, sheets);
    std::vector<std::vector<std::string>> variants;
    for (const Asked& a : sheets)
        if (std::find(variants.begin(), variants.end(), a.values) == variants.end()) variants.push_back(a.values);
    for (const auto& values : variants) {
        std::vector<const Asked*> days;
        for (const Asked& a : sheets)
            if (a.day && a.values == values) days.push_back(&a);
        for (const AskedEdge& e : edges) {
            const Share s = share_of(days, e);
            for (const std::string& v : values) csv.cell(v);
            csv.cell(e.label).cell(e.wanted);
            for (const int n : {s.days, s.hard, s.firm, s.soft, s.lost, s.not_judged}) csv.number(n);
            for (const double mm : {s.least_mm, s.median_mm, s.most_mm}) csv.number(rounded(mm, 0.01));
            csv.end_row();
        }
    }
    return csv.text();
}

} // namespace tidemark::report
