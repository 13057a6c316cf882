#include "air/sideways.h"
#include "grid/largest.h"
#include "grid/rows.h"
#include "grid/within.h"

#include <algorithm>
#include <cmath>

namespace tidemark::air {
namespace {

constexpr int most_sweeps = 2000;

// Whole rows, so that the loops become vector code: also the cells of the other colour are read, to no effect, and written,
// with what is there. Another thread may do the same at that moment in the next row, which the thread sanitizer rightly calls
// a race; it ends in the same value whoever comes first.
#define SAME_WHOEVER_COMES_FIRST __attribute__((no_sanitize("thread")))

/// What the cells first, first + 2, ... move by; the others don't.
SAME_WHOEVER_COMES_FIRST TIDEMARK_CLONES void step_cells(int n,
                                                         int first,
                                                         float screen,
                                                         float over,
                                                         const float* __restrict v,
                                                         const float* __restrict up,
                                                         const float* __restrict down,
                                                         const float* __restrict s,
                                                         float* __restrict step) {
    const float scale = 1 / (4 + screen);
    for (int i = 0; i < n; ++i) {
        const float moved = over * (((v[i - 1] + v[i + 1]) + (up[i] + down[i]) + screen * s[i]) * scale - v[i]);
        step[i] = (i & 1) == first ? moved : 0.0f;
    }
}

SAME_WHOEVER_COMES_FIRST TIDEMARK_CLONES void add_cells(int n, const float* __restrict step, float* __restrict v) {
    for (int i = 0; i < n; ++i)
        v[i] += step[i];
}

/// Cells of one colour don't see each other: all may move at once. In stretches on scratch in the nearest cache; what
/// a stretch reads beyond its ends is of the other colour.
float relax_row(
    float* v, const float* up, const float* down, const float* s, int nx, int first, float screen, float over) {
    constexpr int stretch = 256; // even: colours stay
    alignas(64) float step[stretch];
    float change = 0;
    for (int i = 0; i < nx; i += stretch) {
        const int n = std::min(stretch, nx - i);
        step_cells(n, first, screen, over, v + i, up + i, down + i, s + i, step);
        change = std::max(change, grid::largest_magnitude(step, 0, n));
        add_cells(n, step, v + i);
    }
    return change;
}

} // namespace

int solve_screened(Field<float>& v,
                   const Field<float>& s,
                   double cell_m,
                   double layer_m,
                   float tolerance,
                   std::vector<float>& row_change) {
    grid::within("cell_m", cell_m, {0.01, 10'000, "mm", 1e-3}); // only their ratio matters here
    grid::within("layer_m", layer_m, {0.1, 10'000, "mm", 1e-3});
    grid::within("tolerance", tolerance, {0, 1});
    const int nx = v.nx(), ny = v.ny();
    const double screen = (cell_m / layer_m) * (cell_m / layer_m);
    // Best over-relaxation for a grid much wider than the layer (Young 1954): only the screening holds v down.
    const double jacobi = 4 / (4 + screen);
    const float over = static_cast<float>(2 / (1 + std::sqrt(1 - jacobi * jacobi)));
    row_change.resize(ny);
    for (int sweep = 1; sweep <= most_sweeps; ++sweep) {
        for (int colour = 0; colour < 2; ++colour)
            grid::for_rows(ny, static_cast<long>(nx) * ny / 2, [&](int j) {
                const float moved = relax_row(v.row(j), v.row(j - 1), v.row(j + 1), s.row(j), nx, (j + colour) & 1,
                                              static_cast<float>(screen), over);
                row_change[j] = colour ? std::max(row_change[j], moved) : moved;
            });
        if (*std::max_element(row_change.begin(), row_change.end()) <= tolerance)
            return sweep;
    }
    return most_sweeps;
}

} // namespace tidemark::air
