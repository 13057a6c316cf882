// The tests share the machine with whatever else runs on it: see grid/calm_threads.h.
#include "grid/calm_threads.h"
#include "grid/rows.h"
TIDEMARK_CALM_THREADS

// Small sheets use threads too, or "the same bytes for any number of threads" would be asked of one thread only.
[[maybe_unused]] static const bool lowered = [] { return (tidemark::grid::parallel_from_cells = 16384) > 0; }();
