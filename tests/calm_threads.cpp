// The tests share the machine with whatever else runs on it: see grid/calm_threads.h.
#include "grid/calm_threads.h"
#include "grid/rows.h"
TIDEMARK_CALM_THREADS

// The sheets that are asked for "the same bytes for any number of threads" have more cells than this. Threads that
// sleep are slow to wake: smaller loops are left to one. Under the thread sanitizer it is the sharing out that is looked at,
// and the tests' sheets are small.
#if defined(__has_feature)
#if __has_feature(thread_sanitizer)
#define TIDEMARK_SHARE_FROM 500
#endif
#endif
#ifndef TIDEMARK_SHARE_FROM
#define TIDEMARK_SHARE_FROM 16384
#endif
[[maybe_unused]] static const bool set = [] { return (tidemark::grid::parallel_from_cells = TIDEMARK_SHARE_FROM) > 0; }();
