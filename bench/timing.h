/// Best time of many: on a machine that is not alone the smallest is the least disturbed.
#pragma once
#include <algorithm>
#include <chrono>

namespace bench {

inline double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// Runs f for `budget_s` and at least 7 times; seconds of the fastest.
template <class F> double best_s(double budget_s, F&& f) {
    f(); // caches and pages
    double best = 1e30;
    int runs = 0;
    for (const double end = now_s() + budget_s; now_s() < end || runs < 7; ++runs) {
        const double start = now_s();
        f();
        best = std::min(best, now_s() - start);
    }
    return best;
}

} // namespace bench
