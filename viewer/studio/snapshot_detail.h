/// A sheet turned into what is kept of a moment. Private to the working half.
#pragma once
#include "sheet/sheet_state.h"
#include "viewer/studio/moment.h"

namespace tidemark::viewer {

/// What is to be seen of a sheet, copied: quick, so that the run goes on while a moment is made of it. Of sheets with more
/// than `most_cells` one of k × k cells.
sheet::SheetState seen_cells(const sheet::SheetState&);

/// With all parts, of what seen_cells() gave.
Moment snapshot(const sheet::SheetState&);

} // namespace tidemark::viewer
