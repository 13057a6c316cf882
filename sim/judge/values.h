/// Does the dried sheet read in the same values as the reference?
///
/// The reference is sorted into the plan's number of groups at its own size (reference/groups.h); its thresholds are
/// applied to the reference resampled to the cells, and to the sheet. Group 0 is the darkest. Compared cell by cell:
/// the share in the right group, and Cohen's kappa, plain and with linear weights (a midtone taken for a light counts
/// half of a dark taken for a light); see kappa.h.
#pragma once
#include "grid/field.h"
#include "judge/kappa.h"
#include "plan/plan.h"
#include "reference/groups.h"
#include "sheet/sheet_state.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct GroupValues {
    double from_L = 0, to_L = 100;               ///< L* that belong to the group
    double reference_share = 0, sheet_share = 0; ///< 0 ... 1 of the sheet's area
    double reference_L = 0, sheet_L = 0;         ///< means; NaN for an empty group
};
struct AreaValues {
    std::string area;
    double share = 0; ///< 0 ... 1 of the sheet's area
    double sheet_L = 0;
    double reference_L = 0; ///< NaN without a reference
};
struct Values {
    bool has_reference = false;
    std::vector<GroupValues> groups;                       ///< empty without a reference
    std::vector<AreaValues> areas;                         ///< in the plan's order, then "whole sheet"
    double right_share = 0, kappa = 0, weighted_kappa = 0; ///< NaN without a reference
    Table confusion;                                       ///< cells: reference's group, sheet's group
    reference::Groups reference_groups, sheet_groups;      ///< on the cells
    reference::ValueMap reference_L;                       ///< on the cells
};

/// `lstar`: of the dried sheet, at least nx × ny.
Values judge_values(const plan::Plan&, const grid::Field<float>& lstar, const sheet::Geometry&);

} // namespace tidemark::judge
