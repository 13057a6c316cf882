/// Threads that sleep at a barrier instead of spinning.
///
/// The OpenMP runtime spins by default; with as many threads as cores and one other busy process a run then takes
/// ten to fifty times as long (measured). It reads its environment when it is loaded, before main(), so the only
/// cure from inside a program is to set the variable and start the program again, which costs about 1 ms.
///
/// Put TIDEMARK_CALM_THREADS once, at namespace scope, into each program's own source file. A policy that the
/// user has set is left alone.
#pragma once
#include <cstdlib>
#include <unistd.h>

#define TIDEMARK_CALM_THREADS                                                                                      \
    __attribute__((constructor)) static void tidemark_calm_threads(int, char** argv, char**) {                    \
        if (std::getenv("OMP_WAIT_POLICY") == nullptr) {                                                           \
            setenv("OMP_WAIT_POLICY", "passive", 0);                                                               \
            execv("/proc/self/exe", argv);                                                                         \
        }                                                                                                          \
    }
