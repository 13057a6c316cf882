/// How each wash ends, on the finished sheet: hard, firm, soft or lost, with a tidemark or without.
///
/// For every wash that was played, the outline of its area is split by what lies on the other side (another painted
/// area, or bare paper). Along each border, L* is read along the normals, averaged over a few millimetres of outline
/// so that granulation evens out, and measured (transition.h), less what reading it off cells has blurred
/// (measured_detail.h); a row holds the medians along the border, and the stretches that it falls into (stretches.h).
///
///   hard   below 1 mm from 10 to 90 % of the change in L*        firm  1 to 3 mm
///   soft   3 to 10 mm                                            lost  above 10 mm, or less than 4 L* between the
///   sides tidemark: within 3 mm inside the edge the wash is at least 3 L* darker than the darker of the two sides
///
/// Range   widths of a cell or two and up; below, hard and firm can't be told apart. Rules in mm 0.01 to 1000, in L* 0 to
///         100, else refused (grid/within.h).
/// The words' limits are this program's own. A neighbour that lies on both sides (a wash below) counts only where no
/// area lies on the far side alone, unless the plan wants something of that pair.
#pragma once
#include "grid/field.h"
#include "judge/stretches.h"
#include "judge/transition.h"
#include "plan/plan.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct EdgeRules {
    double firm_from_mm = 1, soft_from_mm = 3, lost_above_mm = 10;
    double lost_below_L = 4;
    double tidemark_from_L = 3;
    double reach_mm = 30;       ///< how far to look on either side, at most half the thickness of what lies there
    double window_mm = 5;       ///< of outline, averaged into one profile
    double least_length_mm = 3; ///< shorter borders are corners, not edges
    TransitionRules transition;
    StretchRules stretch;
};

struct Edge {
    int step = 0;          ///< the wash
    std::string area;      ///< of that wash; the step's name when it covers the whole sheet
    std::string neighbour; ///< area or step on the other side, or "paper"
    double length_mm = 0;
    double width_mm = 0; ///< NaN: no contrast to measure
    double delta_L = 0;  ///< between the two plateaus, ≥ 0
    double inside_L = 0, outside_L = 0;
    double rim_L = 0;    ///< ≥ 0
    double shift_mm = 0; ///< how far outside the mask's outline the edge came to lie
    std::string word;    ///< hard, firm, soft or lost
    std::string wanted;  ///< empty: the plan does not say
    int want = -1;       ///< index into Plan::wants of that wish; -1: none
    bool tidemark = false;
    std::string met;     ///< stage that most of the paper along it was in just before the wash came
    double met_share = 0; ///< ... and how much of it, 0 ... 1
    double x_mm = 0, y_mm = 0; ///< middle of the longest unbroken piece
    std::vector<Stretch> stretches; ///< the longest first (stretches.h)
};

plan::EdgeWord edge_word(double width_mm, double delta_L, const EdgeRules& = {});

/// `lstar`: of the dried sheet, at least nx × ny. Ordered by step, then by first appearance along the outline.
std::vector<Edge> judge_edges(const plan::Plan&,
                              const sheet::Record&,
                              const grid::Field<float>& lstar,
                              const sheet::Geometry&,
                              const EdgeRules& = {});

} // namespace tidemark::judge
