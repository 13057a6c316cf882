/// How much of each mix to have ready.
///
/// What the acts laid on the sheet, as mL of water and g of dry pigment, summed over the run; and the amount to
/// prepare: a quarter to a third more, for palette and brush (common practice), at least what the washes' brushes take up,
/// rounded up to whole mL.
///
/// A brush with a load (hand/touch.h) begins each wash charged with what it holds, lays what it can release, and is filled
/// up again by as much. What it took up and didn't lay is in it when the wash is done: part of the last load, and what no
/// brush gives. It is counted for each wash, as if rinsed out after it: who goes on with the same brush and mix saves that.
///
/// Of body colour, which is laid by weight, mL are those of its water. Clear water is what wetting, softening, and
/// spatter and spray without paint bring.
/// Pigment takes up a little room of its own (1 g is 0.2 to 0.7 mL), which the rounding does not cover for strong
/// mixes.
#pragma once
#include "plan/plan.h"
#include "sheet/record.h"

#include <string>
#include <vector>

namespace tidemark::judge {

struct MixPigment {
    std::string pigment;
    double laid_g = 0, prepare_g = 0; ///< in the larger of the two amounts
};
/// A brush and a mix, all washes together.
struct BrushUse {
    std::string brush;
    int washes = 0, loads = 0; ///< a charge at the beginning of each wash, the rest are refills
    double laid_mL = 0, taken_mL = 0;
    int refills() const { return loads - washes; }
    double stays_mL() const { return taken_mL - laid_mL; }
};
struct MixAmount {
    std::string mix; ///< "clean water" for clear water; only when some was brought
    double laid_mL = 0;
    double prepare_from_mL = 0, prepare_to_mL = 0; ///< whole mL; 0 when nothing was laid
    std::vector<MixPigment> pigments;
    std::vector<BrushUse> brushes; ///< those of the plan, as the run went; in the order of first use
    std::vector<double> washes_mL; ///< what each wash laid, with a brush or with one that never runs dry
};
/// In the plan's order, clean water last. A mix without pigment that was never laid is left out.
std::vector<MixAmount> judge_mixes(const plan::Plan&, const sheet::Record&);

/// What another brush would need for the same washes, to the last one full loads as long as there is more to lay.
BrushUse with_brush(const std::vector<double>& washes_mL, const materials::Brush&);

} // namespace tidemark::judge
