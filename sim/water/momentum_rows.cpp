#include "water/momentum_rows.h"

#include "grid/largest.h"
#include "grid/rows.h"

namespace tidemark::water {
namespace {
inline float positive(float x) { return x > 0 ? x : 0.0f; }
inline float magnitude(float x) { return x > 0 ? x : 0.0f - x; }
} // namespace

TIDEMARK_CLONES void speed_row(const SpeedRow& r, int begin, int end) {
    const float k = r.k;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float q = r.flux[i], depth = r.depth[i], least = k * magnitude(q) + 1e-12f;
        r.speed[i] = q / (depth > least ? depth : least);
    }
}

TIDEMARK_CLONES void carried_row(const CarriedRow& r, int begin, int end) {
    const float half_k = 0.5f * r.k, held = r.held;
#pragma omp simd
    for (int i = begin; i < end; ++i) {
        const float front = half_k * (r.flux[i] + r.front[i]), back = half_k * (r.back[i] + r.flux[i]);
        const float far = half_k * (r.far_a[i] + r.far_b[i]), near = half_k * (r.near_a[i] + r.near_b[i]);
        const float from_back = positive(back), from_front = positive(-front);
        const float from_near = positive(near), from_far = positive(-far);
        const float in = (from_back + from_front) + (from_near + from_far);
        const float stays = positive(0.5f * (r.h_a[i] + r.h_b[i]) - held - in) + 1e-12f;
        const float momentum = stays * r.speed[i] + ((from_back * r.speed_back[i] + from_front * r.speed_front[i]) +
                                                     (from_near * r.speed_near[i] + from_far * r.speed_far[i]));
        r.carried[i] = momentum / (stays + in);
    }
}

TIDEMARK_CLONES float deepest_of_row(const float* h, int begin, int end) {
    return grid::largest_magnitude(h, begin, end);
}

} // namespace tidemark::water
