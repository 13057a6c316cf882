#include "fibre/through.h"

#include "grid/rows.h"

#include <algorithm>

namespace tidemark::fibre {
namespace {

TIDEMARK_CLONES void cells(int n,
                           double share,
                           double capacity,
                           double* __restrict front,
                           double* __restrict back,
                           double* __restrict run_off) {
    for (int i = 0; i < n; ++i) {
        const double crosses = share * (front[i] - back[i]);
        const double held = back[i] + crosses, over = std::max(held - capacity, 0.0);
        front[i] -= crosses;
        back[i] = held - over;
        run_off[i] = over;
    }
}

} // namespace

double exchange_rate_1_s(const materials::Paper& p) {
    return 8 * p.through_diffusivity_m2_s / (p.caliper_m * p.caliper_m);
}

void through_stretch(int n, double share, double capacity_kg_m2, double* front, double* back, double* run_off) {
    cells(n, share, capacity_kg_m2, front, back, run_off);
}

} // namespace tidemark::fibre
