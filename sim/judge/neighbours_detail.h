/// What was painted where, and what lies on the two sides of an outline.
#pragma once
#include "judge/boundary.h"
#include "plan/plan.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

#include <string>
#include <vector>

namespace tidemark::judge {

constexpr int bare_paper = -1; ///< in place of an index into PaintedMap::areas

struct PaintedArea {
    int area = plan::whole_sheet;
    int last_step = 0;              ///< that painted it
    std::vector<std::string> names; ///< the first one is shown
    grid::Field<float> coverage;
};

/// The areas of the washes, charges, dry brush and body colour that were played (flicked and sprayed drops have no
/// outline of their own), by first appearance in the plan; and for every cell, which
/// of them cover it: combos[combo(i, j)], rising.
struct PaintedMap {
    double cell_mm = 0.5;
    std::vector<PaintedArea> areas;
    grid::Field<int> combo;
    std::vector<std::vector<int>> combos;
    int combo_at(double x_mm, double y_mm) const; ///< -1 off the sheet
    bool covers(int combo_index, int area) const;
    int index_of(int plan_area) const;
};
PaintedMap painted_map(const plan::Plan&, const sheet::Record&, const sheet::Geometry&);
bool was_played(const sheet::Record&, int step);

/// The plan's wish for the edge between two things with these names; nullptr when it has none.
const plan::Want*
wanted_between(const plan::Plan&, const std::vector<std::string>& one, const std::vector<std::string>& other);

/// Index of what lies beyond the outline of areas[own] at this point, or bare_paper.
int neighbour_at(const plan::Plan&, const PaintedMap&, int own, const OutlinePoint&);

/// How far a profile reaches on either side before it would see the next thing: half the thickness of what lies
/// there, or all of it up to the sheet's border; at least 1 mm, at most `longest_mm`.
struct Reach {
    double inside_mm = 0, outside_mm = 0;
};
Reach reach_at(const PaintedMap&, int own, int neighbour, const OutlinePoint&, double longest_mm);

} // namespace tidemark::judge
