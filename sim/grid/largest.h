/// The largest magnitude of a row of floats, in a form that compilers vectorise without -ffinite-math-only.
///
/// Bits of non-negative floats are in the order of their values, so the comparison is made on whole numbers. A NaN
/// counts as larger than anything: it can't hide.
#pragma once
#include <bit>
#include <cstdint>

namespace tidemark::grid {

__attribute__((always_inline)) inline float largest_magnitude(const float* x, int begin, int end) {
    std::int32_t largest = 0;
#pragma omp simd reduction(max : largest)
    for (int i = begin; i < end; ++i) {
        const std::int32_t bits = std::bit_cast<std::int32_t>(x[i]) & 0x7fffffff;
        largest = largest > bits ? largest : bits;
    }
    return std::bit_cast<float>(largest);
}

/// The same order for one value already known to be non-negative.
__attribute__((always_inline)) inline std::int32_t ordered_bits(float x) { return std::bit_cast<std::int32_t>(x); }

} // namespace tidemark::grid
