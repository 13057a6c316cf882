/// The parts of a sub-step of transport.h. Private to the room. dt_per_dx: s/m.
#pragma once
#include "pigment/workspace.h"
#include "sheet/sheet_state.h"

namespace tidemark::pigment {

/// What the water of block `number` does. `done` sub-steps of the same size came before.
void look_at_water(const sheet::SheetState&, PigmentWorkspace&, int number, float dt_per_dx, float done);

/// What the tiles of a block show of every substance at their edges; masses stay. After the water of all blocks and
/// the through-flow (through.h).
void look(const sheet::SheetState&, PigmentWorkspace&, const Block&);

/// Moves every substance of a strip, after all blocks have been looked at. Strips do not touch from left to right
/// and see only the edge rows of those above and below, so that any order gives the same bytes.
void carry(sheet::SheetState&, const PigmentWorkspace&, const Block& strip, float dt_per_dx);

} // namespace tidemark::pigment
