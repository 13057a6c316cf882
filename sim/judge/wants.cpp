#include "judge/wants.h"

#include "judge/neighbours_detail.h"

#include <algorithm>
#include <fmt/format.h>

namespace tidemark::judge {

namespace {

/// Was something painted in this run that a want calls so? Bare paper is always there.
bool was_painted(const plan::Plan& p, const sheet::Record& record, const std::string& name) {
    if (name == "paper")
        return true;
    const int area = p.area_index(name);
    for (std::size_t s = 0; s < p.steps.size(); ++s) {
        const plan::Step& step = p.steps[s];
        const bool called_so = step.name == name || (area >= plan::whole_sheet && step.area() == area);
        if (called_so && paints(step) && was_played(record, static_cast<int>(s)))
            return true;
    }
    return false;
}

std::string why_not(const plan::Plan& p, const sheet::Record& record, const plan::Want& w, const EdgeRules& rules) {
    for (const std::string& name : {w.first, w.second})
        if (!was_painted(p, record, name))
            return fmt::format("\"{}\" was not painted in this run", name);
    return fmt::format(
        "no edge of {:g} mm or more between them in cells of {:g} mm, or another wanted edge in its place",
        rules.least_length_mm, record.cell_m * 1e3);
}

} // namespace

std::vector<WantVerdict> judge_wants(const plan::Plan& p,
                                     const sheet::Record& record,
                                     const std::vector<Edge>& edges,
                                     const EdgeRules& rules) {
    std::vector<WantVerdict> verdicts(p.wants.size());
    for (std::size_t k = 0; k < edges.size(); ++k) // by step: the last one stays
        if (edges[k].want >= 0)
            verdicts[edges[k].want] = {static_cast<int>(k), edges[k].word == edges[k].wanted, {}};
    for (std::size_t w = 0; w < p.wants.size(); ++w)
        if (verdicts[w].edge < 0)
            verdicts[w].reason = why_not(p, record, p.wants[w], rules);
    return verdicts;
}

} // namespace tidemark::judge
