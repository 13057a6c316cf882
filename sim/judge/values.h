/// Does the dried sheet read in the same values as the reference?
///
/// The reference is sorted into the plan's number of groups at its own size (reference/groups.h); its thresholds are
/// applied to the reference resampled to the cells, and to the sheet. Group 0 is the darkest. Compared cell by cell:
/// the share in the right group, and Cohen's kappa, plain and with linear weights (a midtone taken for a light counts
/// half of a dark taken for a light); see kappa.h.
///
/// From three metres, where a painter steps back to, the eye mixes what is finer than it resolves: granulation, drybrush,
/// broken edges. Full acuity (Snellen 20/20, ISO 8596 1.0; from memory) tells stripes of 1 minute of arc apart, 0.87 mm at
/// 3 m. Both maps are blurred, in L* as reference/value_map.h mixes, by the Gaussian that leaves stripes of that width a
/// twentieth of their contrast (our choice, as what can just be told at best), a standard deviation of 0.68 mm; the same
/// thresholds are applied, and kappa with linear weights is taken again. Cells of 2 mm and more are coarser than the eye:
/// there it changes little.
///
/// Masses (reference/masses.h) are those of the reference as it is seen from there, crumbs below 25 mm² joined to a
/// neighbour; their means are of what is there, not of what is seen.
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
struct MassValues {
    int group = 0;
    double x_mm = 0, y_mm = 0; ///< the middle of its widest place
    double share = 0;          ///< 0 ... 1 of the sheet's area
    double reference_L = 0, sheet_L = 0; ///< means
};

constexpr double stands_back_m = 3, resolves_arc_min = 1, contrast_left = 0.05;
constexpr std::size_t most_masses = 24;
/// Standard deviation of the blur of an eye so far away, on the sheet.
double eye_blur_m(double away_m);

struct Values {
    bool has_reference = false;
    std::vector<GroupValues> groups;                       ///< empty without a reference
    std::vector<AreaValues> areas;                         ///< in the plan's order, then "whole sheet"
    double right_share = 0, kappa = 0, weighted_kappa = 0; ///< NaN without a reference
    double distant_kappa = 0;                              ///< with linear weights, from three metres; NaN likewise
    std::vector<MassValues> masses;                        ///< of the reference, the largest first, `most_masses` at most
    Table confusion;                                       ///< cells: reference's group, sheet's group
    reference::Groups reference_groups, sheet_groups;      ///< on the cells
    reference::ValueMap reference_L;                       ///< on the cells
};

/// `lstar`: of the dried sheet, at least nx × ny.
Values judge_values(const plan::Plan&, const grid::Field<float>& lstar, const sheet::Geometry&);

} // namespace tidemark::judge
