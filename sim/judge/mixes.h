/// How much of each mix to have ready.
///
/// What the acts laid on the sheet, as mL of water and g of dry pigment, summed over the run; and the amount to
/// prepare: a quarter to a third more, for palette and brush (common practice), rounded up to whole mL.
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
struct MixAmount {
    std::string mix; ///< "clean water" for clear water; only when some was brought
    double laid_mL = 0;
    double prepare_from_mL = 0, prepare_to_mL = 0; ///< whole mL; 0 when nothing was laid
    std::vector<MixPigment> pigments;
};
/// In the plan's order, clean water last. A mix without pigment that was never laid is left out.
std::vector<MixAmount> judge_mixes(const plan::Plan&, const sheet::Record&);

} // namespace tidemark::judge
