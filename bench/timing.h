/// Best time of many: on a machine that is not alone the smallest is the least disturbed.
#pragma once
#include <omp.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>

namespace bench {

inline double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// On one thread the time of the processor, which other programs disturb least; on more the time of the day.
inline double busy_s() {
    if (omp_get_max_threads() > 1) return now_s();
    timespec t{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// Runs f for `budget_s` and at least 7 times; seconds of the fastest.
template <class F> double best_s(double budget_s, F&& f) {
    f(); // caches and pages
    double best = 1e30;
    int runs = 0;
    for (const double end = now_s() + budget_s; now_s() < end || runs < 7; ++runs) {
        const double start = busy_s();
        f();
        best = std::min(best, busy_s() - start);
    }
    return best;
}

/// The first argument: seconds to spend on each thing that is measured. Ends the program when it makes no sense.
inline double budget_s(int argc, char** argv, const char* on_what, double otherwise) {
    const double seconds = argc > 1 ? std::atof(argv[1]) : otherwise;
    if (!(seconds > 0 && seconds <= 60)) {
        std::fprintf(stderr, "%s: seconds %s must lie in 0 ... 60, not \"%s\"\n", argv[0], on_what, argv[1]);
        std::exit(1);
    }
    return seconds;
}

inline void print_load() {
    double load[1] = {0};
    if (getloadavg(load, 1) == 1) std::printf("# other load on this machine: %.1f\n", load[0]);
}

} // namespace bench
