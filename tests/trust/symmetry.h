/// A sheet against that of the same plan mirrored or turned by a right angle, on paper that is mirrored or turned with it.
///
/// Compared is what a painter sees: how much pigment lies where on the dried sheet. `share`: half of the sum over cells of the
/// differences, over all pigment on the sheet: so much of it lies elsewhere. `towards_mm`: by how much the middle of all
/// pigment has moved along each axis, beyond where the other sheet, seen back through the mirror, has it.
///
/// Bounds, and what was measured: symmetry.cpp.
#pragma once
#include <string>
#include <vector>

#include "rehearsal/rehearsal.h"

namespace tidemark::trust {

enum class Way { mirror, turn };

plan::Plan seen(const plan::Plan&, Way);
/// Gives a run that has not begun the felt of another sheet, as it is seen that way.
void exchange_paper(rehearsal::Rehearsal&, const sheet::SheetState& plain, Way);

struct Asymmetry {
    double share = 0, x_mm = 0, y_mm = 0;
    std::string text() const;
};
Asymmetry asymmetry(const sheet::SheetState& plain, const sheet::SheetState& other, Way);

/// Those of many plans.
class Symmetries {
  public:
    std::string add(const char* name, const Asymmetry&); ///< what is wrong with this one; empty: nothing
    std::string fault() const;                           ///< of all together
    std::string text() const;
    int count() const { return static_cast<int>(shares_.size()); }

  private:
    std::vector<double> shares_, xs_, ys_;
};

} // namespace tidemark::trust
