// The tests share the machine with whatever else runs on it: see grid/calm_threads.h.
#include "grid/calm_threads.h"
TIDEMARK_CALM_THREADS
