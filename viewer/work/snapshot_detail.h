/// A sheet turned into what is kept of a moment. Private to the working half.
#pragma once
#include "sheet/sheet_state.h"
#include "viewer/work/moment.h"

namespace tidemark::viewer {

/// With all parts. Cells are joined k × k until there are at most `most_cells`.
Moment snapshot(const sheet::SheetState&);

} // namespace tidemark::viewer
