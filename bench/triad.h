/// The machine's own measure: a = b + s c over arrays of one size together (McCalpin's STREAM, 12 bytes an element).
/// What a cell costs is given in triads of the same run, the same number of threads and the same set of memory, so
/// that figures from different machines and different hours can be compared.
#pragma once
#include "timing.h"

#include <cstddef>
#include <vector>

namespace bench {

/// Nanoseconds an element. `set_bytes`: the three arrays together.
inline double triad_ns(std::size_t set_bytes, double budget_s) {
    const std::size_t n = set_bytes / 12;
    std::vector<float> a(n, 1.0f), b(n, 2.0f), c(n, 3.0f);
    const double s = best_s(budget_s, [&] {
        float *x = a.data(), *y = b.data(), *z = c.data();
#pragma omp parallel for simd schedule(static)
        for (std::size_t i = 0; i < n; ++i)
            x[i] = y[i] + 1.0001f * z[i];
        asm volatile("" ::: "memory");
    });
    return 1e9 * s / static_cast<double>(n);
}

} // namespace bench
