// Compiled twice, linked with the room water: once as it stands, and once reaching for a room that water may not see.
#include "sheet/sheet_state.h"
#include "water/film.h"
#ifdef TIDEMARK_REACH_TOO_FAR
#include "fibre/advance.h"
#endif
