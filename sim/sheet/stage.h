/// The four stages of a drying wash, cell by cell.
///   wet: film covers the relief (mirror sheen); moist: film only in the valleys (broken sheen);
///   damp: no film, fibres still hold free water (cool); dry: near the room's equilibrium moisture.
/// A cell without film is dry when its front half is at most 2 % moisture (of dry fibre) above equilibrium with the
/// room; warm air, which would dry it further, does not make dry paper damp.
/// Film counts from 1 µm on; wet is never thinner than 2 µm, however smooth the paper.
#pragma once
#include <cstdint>

#include "sheet/sheet_state.h"

namespace tidemark::sheet {

enum class CellStage : std::uint8_t { wet = 0, moist = 1, damp = 2, dry = 3 };

struct StageRule { double wet_film_m = 0, moist_film_m = 0, dry_front_kg_m2 = 0; };
StageRule stage_rule(const SheetState&);  ///< thresholds for this paper and room
inline CellStage stage_of(const StageRule& r, float film_m, double front_kg_m2) {
    if (film_m >= r.wet_film_m) return CellStage::wet;
    if (film_m >= r.moist_film_m) return CellStage::moist;
    return front_kg_m2 > r.dry_front_kg_m2 ? CellStage::damp : CellStage::dry;
}
/// The share of an area's cells that must be in a stage, or a drier one, before the area is said to have reached it:
/// the sheen has gone when half of it is broken; no film means nearly everywhere; dry means all but stray cells.
constexpr double stage_share(CellStage s) { return s == CellStage::moist ? 0.5 : s == CellStage::damp ? 0.8 : 0.95; }

/// `share`: of the area's cells in wet, moist, damp, dry. How many of them are in a stage, or in a drier one.
constexpr double share_in(const double (&share)[4], CellStage s) {
    double drier = 0;
    for (int k = static_cast<int>(s); k < 4; ++k) drier += share[k];
    return drier;
}
constexpr bool has_reached(const double (&share)[4], CellStage s) { return share_in(share, s) >= stage_share(s); }

} // namespace tidemark::sheet
