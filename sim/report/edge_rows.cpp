#include "report/edge_rows.h"

#include "report/verdict_text.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr std::size_t most_stretches = 2, most_edges = 10;
constexpr int few = 4; ///< edges not as wanted; of more only the longest stretch is told

std::string found_text(const judge::Edge& e) {
    const std::string text = edge_text(e.word, e.width_mm, e.delta_L);
    return e.tidemark ? fmt::format("{}, tidemark of {:.0f} L*", text, e.rim_L) : text;
}

/// Of an edge as wanted the longest stretch; of another those that are not, the longest first.
std::vector<std::string> why(const judge::Edge& e, bool met, std::size_t most = 1) {
    std::vector<std::string> lines;
    if (met && !e.stretches.empty())
        lines.push_back(e.stretches.front().why);
    for (const judge::Stretch& s : e.stretches)
        if (!met && s.word != e.wanted && lines.size() < most)
            lines.push_back(fmt::format("{}, {:.0f} mm: {}; {}", s.side, s.length_mm,
                                        edge_text(s.word, s.width_mm, s.delta_L), s.why));
    return lines;
}

PageTable::Row wish_row(const plan::Plan& plan, const judge::Verdicts& v, std::size_t k, std::size_t most) {
    const judge::WantVerdict& w = v.wants[k];
    const plan::Want& want = plan.wants[k];
    if (w.edge < 0)
        return {{{want.first + " | " + want.second}, {plan::word(want.edge)}, {"–"}, {"not judged"}, {w.reason}}, "step"};
    const judge::Edge& e = v.edges[w.edge];
    return {{{plan.steps[e.step].name + " | " + e.neighbour}, {e.wanted}, {found_text(e)}, {w.met ? "yes" : "NO"},
             why(e, w.met, most)},
            w.met ? "step" : "no"};
}

PageTable::Row found_row(const plan::Plan& plan, const judge::Edge& e) {
    return {{{plan.steps[e.step].name + " | " + e.neighbour}, {"–"}, {found_text(e)}, {"–"}, why(e, true)}, "step"};
}

} // namespace

PageTable edge_table(const plan::Plan& plan, const judge::Verdicts& v) {
    PageTable t;
    t.css = "edges";
    t.caption = "Width of the change in value: hard below 1 mm, firm to 3, soft to 10, lost above or between equals.";
    t.columns = {{"Edge", 0.18}, {"Wanted", 0.07}, {"Found", 0.13}, {"Met", 0.07}, {"Why", 0.55}};
    const auto unmet = std::count_if(v.wants.begin(), v.wants.end(), [](const auto& w) { return !w.met; });
    for (const bool met : {false, true})
        for (std::size_t k = 0; k < v.wants.size(); ++k)
            if (v.wants[k].met == met)
                t.rows.push_back(wish_row(plan, v, k, unmet > few ? 1 : most_stretches));
    if (!v.wants.empty())
        return t;
    std::vector<const judge::Edge*> longest;
    for (const judge::Edge& e : v.edges)
        longest.push_back(&e);
    std::stable_sort(longest.begin(), longest.end(), [](const auto* a, const auto* b) { return a->length_mm > b->length_mm; });
    for (std::size_t k = 0; k < std::min(longest.size(), most_edges); ++k)
        t.rows.push_back(found_row(plan, *longest[k]));
    return t;
}

std::string wishes_text(const judge::Verdicts& v) {
    if (v.wants.empty())
        return {};
    const auto met = std::count_if(v.wants.begin(), v.wants.end(), [](const auto& w) { return w.met; });
    const auto unjudged = std::count_if(v.wants.begin(), v.wants.end(), [](const auto& w) { return w.edge < 0; });
    return fmt::format("{} of {} as wanted{}", met, v.wants.size(),
                       unjudged > 0 ? fmt::format(", {} not judged", unjudged) : "");
}

} // namespace tidemark::report
