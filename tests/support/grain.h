/// Grain as a granulating wash has it, for invented sheets: Gaussian noise that neighbouring cells share.
#pragma once
#include "grid/field.h"

#include <cmath>
#include <random>
#include <vector>

namespace tidemark::scene {

/// Adds noise of `sd_L` L*; its correlation falls off as a Gaussian of √2 `sd_mm`. The border's cells meet round the sheet.
inline void add_grain(grid::Field<float>& lstar, double cell_mm, double sd_L, double sd_mm, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<float> normal(0, 1);
    const int nx = lstar.nx(), ny = lstar.ny(), reach = std::max(1, static_cast<int>(std::ceil(3 * sd_mm / cell_mm)));
    std::vector<double> weight;
    double sum = 0, squares = 0;
    for (int k = -reach; k <= reach; ++k)
        weight.push_back(std::exp(-0.5 * std::pow(k * cell_mm / sd_mm, 2))), sum += weight.back();
    for (double& w : weight)
        w /= sum, squares += w * w;
    grid::Field<float> white(nx, ny), half(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            white(i, j) = normal(random);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            for (int k = -reach; k <= reach; ++k)
                half(i, j) += static_cast<float>(weight[k + reach]) * white((i + k + nx) % nx, j);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            double v = 0;
            for (int k = -reach; k <= reach; ++k)
                v += weight[k + reach] * half(i, (j + k + ny) % ny);
            lstar(i, j) += static_cast<float>(sd_L * v / squares);
        }
}

} // namespace tidemark::scene
