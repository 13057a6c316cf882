/// How threads wait for each other at the end of a loop.
///
///   TIDEMARK_BRISK_THREADS   spin for some 0.1 ms, then sleep: a loop of 20 µs is worth sharing. For programs that
///                            play a rehearsal, with grid/give_way.h: spinning beside a busy program is slow
///   TIDEMARK_CALM_THREADS    sleep at once: for what has little to share, and for the tests, which run side by side
///
/// The OpenMP runtime by itself spins for milliseconds; with as many threads as cores and one other busy process a
/// run then takes ten to fifty times as long (measured). It reads its environment when it is loaded, before main(),
/// so the only cure from inside a program is to set the variable and start the program again, which costs about 1 ms.
///
/// Put one of them once, at namespace scope, into each program's own source file. What the user has set is left
/// alone.
#pragma once
#include <cstdlib>
#include <unistd.h>

#define TIDEMARK_THREADS_BY(variable, value)                                                                       \
    __attribute__((constructor)) static void tidemark_threads(int, char** argv, char**) {                          \
        if (std::getenv("OMP_WAIT_POLICY") == nullptr && std::getenv("GOMP_SPINCOUNT") == nullptr) {               \
            setenv(variable, value, 0);                                                                            \
            execv("/proc/self/exe", argv);                                                                         \
        }                                                                                                          \
    }
#define TIDEMARK_BRISK_THREADS TIDEMARK_THREADS_BY("GOMP_SPINCOUNT", "10000")
#define TIDEMARK_CALM_THREADS TIDEMARK_THREADS_BY("OMP_WAIT_POLICY", "passive")
