/// Cells that more water runs through in a sub-step than they hold: the head of a wash that runs down a board, thin
/// films between puddles. Private to the room.
///
/// Such a cell can't give at the concentration it had, for it has too little. It gives at the concentration that it
/// has once its inflow has mixed in,
///
///   c = (m + Σ in c_in) / (h + Σ in),   c_in that which leaves the cells above in the same sub-step,
///
/// the implicit upwind step (Patankar 1980, section 5.2, from memory): stable for any flow, even stays even, and what
/// is left is c times the depth that is left, so never negative. Cells are taken in the order in which the water
/// runs through them; where it runs in a ring they are gone through until they settle. No slopes at such cells.
#pragma once
#include "pigment/workspace.h"
#include "sheet/sheet_state.h"

namespace tidemark::pigment {

/// After the water of every block has been looked at: finds the cells marked there, in order of the flow, and what
/// leaves them of every substance. `done` sub-steps of the same size came before.
void find_through_flow(const sheet::SheetState&, PigmentWorkspace&, float dt_per_dx, float done);

/// Writes their concentrations of substance k over those of columns [b, b + n) of row j; c_lower[0] is column b.
void patch_through_flow(const PigmentWorkspace&, std::size_t k, int j, int b, int n, float* c_lower, float* c_upper);

} // namespace tidemark::pigment
