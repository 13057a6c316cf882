/// Whether two plans paint the same: all that a rehearsal reads of a plan, its masks and the rows of the tables it names.
/// Not what it is judged by (wants, reference), nor where it lies in the file (comments, lines).
#pragma once
#include "grid/archive.h"
#include "plan/plan.h"

namespace tidemark::plan {

grid::ArchiveDigest digest(const Plan&);

} // namespace tidemark::plan
