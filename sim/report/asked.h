/// What became of the variants of one plan: a row a sheet.
///
///   ask_table        ask.csv: what was varied, then each edge's word and width, windows, agreement
///   uncertain_table  uncertain.csv: of many days, how often each edge was what
///
/// The edges are the plan's wishes in their order, then the other edges of the steps that were varied.
#pragma once
#include "judge/judge_run.h"
#include "plan/another_day.h"
#include "plan/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace tidemark::report {

/// One sheet that was painted.
struct Asked {
    std::vector<std::string> values; ///< as they were asked for, one for each thing varied
    std::optional<plan::Day> day;    ///< none: as planned
    double end_s = 0;
    bool painted_whole = false;      ///< every step was done: only then it is held to the reference
    std::vector<judge::Edge> edges;
    std::vector<judge::WantVerdict> wants;
    std::vector<judge::Window> windows;
    double weighted_kappa = 0;       ///< NaN: no reference
};

struct Question {
    std::vector<std::string> names; ///< of what is varied: "shed.wait"
    std::vector<int> steps;         ///< that are varied, or lay a mix that is
};

struct AskedEdge {
    int want = -1;          ///< index into Plan::wants; -1: of `step` towards `neighbour`
    int step = -1;
    std::string neighbour;
    bool of_varied = false; ///< one of the varied steps has it
    std::string label;      ///< "shed-side | ground"
    std::string wanted;     ///< empty: the plan does not say
};

std::vector<AskedEdge> asked_edges(const plan::Plan&, const Question&, const std::vector<Asked>&);
/// The few that a picture has room for: those of varied steps, or else the wishes; of those that some sheet has.
std::vector<AskedEdge> shown_edges(const std::vector<AskedEdge>&, const std::vector<Asked>&, std::size_t most);
/// nullptr: not judged on this sheet.
const judge::Edge* found(const Asked&, const AskedEdge&);
/// "firm 2.1 mm", "lost", "not painted"
std::string found_text(const Asked&, const AskedEdge&);

std::string ask_table(const plan::Plan&, const Question&, const std::vector<Asked>&);

/// How often an edge was what, over days.
struct Share {
    int hard = 0, firm = 0, soft = 0, lost = 0, not_judged = 0, days = 0;
    double least_mm = 0, median_mm = 0, most_mm = 0; ///< of those with a width; NaN: none
    std::string text() const;                        ///< "firm in 7 of 8, hard in 1"
};
Share share_of(const std::vector<const Asked*>& days, const AskedEdge&);

/// One row for each variant and edge. `sheets` as for ask_table(): days with the same values belong together.
std::string uncertain_table(const plan::Plan&, const Question&, const std::vector<Asked>& sheets);

} // namespace tidemark::report
