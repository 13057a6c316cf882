/// Whether two plans paint the same: all that a rehearsal reads of a plan, its masks and the rows of the tables it names.
/// Not what it is judged by (wants, reference), nor where it lies in the file (comments, lines).
#pragma once
#include "grid/archive.h"
#include "plan/plan.h"

namespace tidemark::plan {

grid::ArchiveDigest digest(const Plan&);

// Of two plans that share their masks by file: whether what the reader looks at is the same, so that it need not be looked at
// again. All areas; and for the edges wanted (check_wants.cpp), besides, which area is painted by what.
bool same_areas(const Plan&, const Plan&);
bool asks_for_the_same_edges(const Plan&, const Plan&);

} // namespace tidemark::plan
