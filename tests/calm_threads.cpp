// The tests share the machine with whatever else runs on it: see grid/calm_threads.h.
#include "grid/calm_threads.h"
#include "grid/rows.h"
TIDEMARK_CALM_THREADS

// The sheets that are asked for "the same bytes for any number of threads" have more cells than this. Threads that
// sleep are slow to wake: smaller loops are left to one.
[[maybe_unused]] static const bool set = [] { return (tidemark::grid::parallel_from_cells = 16384) > 0; }();
