#include "sheet/relief.h"

#include <cmath>
#include <vector>

#include "grid/within.h"

namespace tidemark::sheet {
namespace {

constexpr double cells_min = 1.6; // the film solver slows threefold when hills are narrower than this

std::uint64_t mixed(std::uint64_t x) { // splitmix64 (Steele, Lea & Flood 2014)
    x += 0x9e3779b97f4a7c15ull;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ull;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebull;
    return x ^ (x >> 31);
}

/// Nearly normal, unit variance: four uniform numbers summed.
double noise(std::uint64_t seed, int i, int j) {
    const std::uint64_t h = mixed(seed ^ mixed(static_cast<std::uint64_t>(i) << 32 | static_cast<std::uint32_t>(j)));
    double sum = 0;
    for (int k = 0; k < 4; ++k) sum += static_cast<double>(h >> (16 * k) & 0xffff) / 65535.0 - 0.5;
    return sum * 1.7320508075688772;
}

/// Weights of the lattice points around each cell centre, along one axis.
struct Taps {
    int first = 0;
    std::vector<double> weight;
};

std::vector<Taps> taps_along(int n, double cell_m, double lattice_m, double sigma_m) {
    std::vector<Taps> taps(n);
    const int reach = static_cast<int>(std::ceil(3.5 * sigma_m / lattice_m));
    for (int i = 0; i < n; ++i) {
        const double x = (i + 0.5) * cell_m / lattice_m;
        const int centre = static_cast<int>(std::floor(x));
        taps[i].first = centre - reach;
        for (int k = -reach; k <= reach; ++k) {
            const double d = (centre + k - x) * lattice_m / sigma_m;
            taps[i].weight.push_back(std::exp(-0.5 * d * d));
        }
    }
    return taps;
}

} // namespace

double make_relief(grid::Field<float>& relief, int nx, int ny, double cell_m, double rms_m, double corr_m,
                   std::uint64_t seed) {
    grid::within("paper.relief_rms_m", rms_m, {0, 200, "µm", 1e-6});
    grid::within("paper.relief_corr_m", corr_m, {0.05, 10, "mm", 1e-3});
    relief.fill(0.0f);
    if (rms_m <= 0) return 0;
    const double carried_m = std::max(corr_m, cells_min * cell_m);
    const double rms_carried_m = rms_m * corr_m / carried_m;
    // Smoothing noise with a Gaussian of sigma gives the correlation exp(-r²/4 sigma²): 1/e at r = 2 sigma.
    const double sigma_m = 0.5 * carried_m, lattice_m = 0.5 * carried_m;
    const auto across = taps_along(nx, cell_m, lattice_m, sigma_m);
    const auto down = taps_along(ny, cell_m, lattice_m, sigma_m);
    const int first = down.front().first, rows = down.back().first + static_cast<int>(down.back().weight.size()) - first;
    std::vector<double> spread(static_cast<std::size_t>(rows) * nx);
    for (int r = 0; r < rows; ++r)
        for (int i = 0; i < nx; ++i) {
            double sum = 0;
            for (std::size_t k = 0; k < across[i].weight.size(); ++k)
                sum += across[i].weight[k] * noise(seed, across[i].first + static_cast<int>(k), first + r);
            spread[static_cast<std::size_t>(r) * nx + i] = sum;
        }
    double total = 0, square = 0;
    std::vector<double> height(static_cast<std::size_t>(nx) * ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            double sum = 0;
            for (std::size_t k = 0; k < down[j].weight.size(); ++k)
                sum += down[j].weight[k] * spread[static_cast<std::size_t>(down[j].first - first + static_cast<int>(k)) * nx + i];
            height[static_cast<std::size_t>(j) * nx + i] = sum;
            total += sum, square += sum * sum;
        }
    const double mean = total / height.size();
    const double scale = rms_carried_m / std::sqrt(std::max(square / height.size() - mean * mean, 1e-300));
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            relief(i, j) = static_cast<float>((height[static_cast<std::size_t>(j) * nx + i] - mean) * scale);
    return std::sqrt(std::max(rms_m * rms_m - rms_carried_m * rms_carried_m, 0.0));
}

} // namespace tidemark::sheet
