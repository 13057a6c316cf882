#include "air/sideways.h"
#include "grid/rows.h"

#include <algorithm>
#include <cmath>

namespace tidemark::air {
namespace {

constexpr int most_sweeps = 2000;

float relax_row(
    float* v, const float* up, const float* down, const float* s, int nx, int first, float screen, float over) {
    const float scale = 1 / (4 + screen);
    float change = 0;
    for (int i = first; i < nx; i += 2) {
        const float step = over * (((v[i - 1] + v[i + 1]) + (up[i] + down[i]) + screen * s[i]) * scale - v[i]);
        v[i] += step;
        change = std::max(change, std::abs(step));
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
