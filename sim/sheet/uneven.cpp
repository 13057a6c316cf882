#include "sheet/uneven.h"

#include <algorithm>
#include <cmath>

namespace tidemark::sheet {
namespace {

constexpr double least_load = 0.4, most_load = 2.5; // of the tile's mean
constexpr int least_cells = 64;
constexpr int apart = 3; // cells
constexpr double even = 0.03;      // a share below which nothing is to be seen: 0.1 % of the reflectance
constexpr double least_hill_m = 1e-6; // of the grid's own hills; flatter ones tell nothing

/// What stands out of the mean of what is `apart` to its left and right. An even slope across the tile, as in the soft
/// edge of a stroke, does not; hills of a cell or two do.
template <class At> double stands_out(const At& at, int i, int j) {
    return at(i, j) - 0.5 * (at(i - apart, j) + at(i + apart, j));
}

/// β of one pigment in cells [i0, i1) × [j0, j1), 1/m; their neighbours may lie beside these.
double slope(const SheetState& s, std::size_t pigment, int i0, int i1, int j0, int j1) {
    const auto load = [&](int i, int j) { return s.pigment_kg_m2(pigment, i, j); };
    const auto hill = [&](int i, int j) { return static_cast<double>(s.relief_m(i, j)); };
    double sum = 0, n = 0;
    for (int j = j0; j < j1; ++j)
        for (int i = i0; i < i1; ++i)
            if (const double m = load(i, j); m > 0) sum += m, ++n;
    if (n < least_cells) return 0;
    const double low = least_load * sum / n, high = most_load * sum / n;
    const auto usual = [&](int i, int j) { return load(i, j) >= low && load(i, j) <= high; };
    double count = 0, m1 = 0, bb = 0, mb = 0;
    for (int j = j0; j < j1; ++j)
        for (int i = std::max(i0, apart); i < std::min(i1, s.geometry.nx - apart); ++i) {
            if (!usual(i, j) || !usual(i - apart, j) || !usual(i + apart, j)) continue;
            const double m = stands_out(load, i, j), b = stands_out(hill, i, j);
            ++count, m1 += load(i, j), bb += b * b, mb += m * b;
        }
    // Both sides of it vary as well: of hills that have nothing to do with each other, half as much more.
    if (count < least_cells || bb / count < 1.5 * least_hill_m * least_hill_m) return 0;
    return mb * count / (bb * m1);
}

} // namespace

Unevenness::Unevenness(const SheetState& s) {
    const double sigma_m = s.relief_subgrid_rms_m;
    if (!(sigma_m > 0) || s.pigments.empty()) return;
    constexpr int size = grid::TileSet::size;
    const int nx = s.geometry.nx, ny = s.geometry.ny, tiles_y = (ny + size - 1) / size;
    tiles_x_ = static_cast<std::size_t>((nx + size - 1) / size), pigments_ = s.pigments.size();
    share_.assign(tiles_x_ * tiles_y * pigments_, 0.0f);
    uneven_.assign(tiles_x_ * tiles_y, 0);
#pragma omp parallel for schedule(dynamic)
    for (int ty = 0; ty < tiles_y; ++ty)
        for (std::size_t tx = 0; tx < tiles_x_; ++tx) {
            const std::size_t t = ty * tiles_x_ + tx;
            // A tile that reaches over the rim is judged by the last whole one's width and height.
            const int i0 = std::clamp(nx - size, 0, static_cast<int>(tx) * size), j0 = std::clamp(ny - size, 0, ty * size);
            for (std::size_t p = 0; p < pigments_; ++p) {
                const double share =
                    std::clamp(sigma_m * slope(s, p, i0, std::min(i0 + size, nx), j0, std::min(j0 + size, ny)), -1.0, 1.0);
                share_[t * pigments_ + p] = static_cast<float>(share);
                if (std::abs(share) > even) uneven_[t] = 1;
            }
        }
}

} // namespace tidemark::sheet
