/// A job that any solver of differential equations can do as well: a round viscous current between two moments of its
/// similarity solution. 0.786 mL of water on a dry level plane of 128 mm, from 0.05 s (radius 21 mm) to 60 s (50 mm);
/// gravity and viscosity alone,
///
///   dh/dt = div(g h³/(3ν) grad h),  h = h_c (1 - (r/R)²)^(1/3),  R = 0.89391 (g V³ t/3ν)^(1/8)
///
/// Source  Huppert 1982, J. Fluid Mech. 121.
#pragma once
#include <algorithm>
#include <cmath>

namespace bench::round_current {

constexpr double side_m = 0.128, volume_m3 = 0.786e-6, nu_m2_s = 1.0034e-6, g_m_s2 = 9.80665, from_s = 0.05, to_s = 60;

/// Mean depth of the similarity solution over a cell centred at (x, y), by 4 × 4 points.
inline double exact_m(double x, double y, double cell_m, double t) {
    const double R = 0.89391 * std::pow(g_m_s2 * std::pow(volume_m3, 3) * t / (3 * nu_m2_s), 0.125);
    const double middle = 4.0 / 3 * volume_m3 / (3.14159265358979 * R * R);
    double sum = 0;
    for (int a = 0; a < 4; ++a)
        for (int b = 0; b < 4; ++b) {
            const double u = x + (a - 1.5) * cell_m / 4 - side_m / 2, v = y + (b - 1.5) * cell_m / 4 - side_m / 2;
            sum += std::cbrt(std::max(0.0, 1 - (u * u + v * v) / (R * R)));
        }
    return middle * sum / 16;
}

/// Percent by which the depths at the end are off in the mean (L1): depth_m(i, j) of cells × cells.
template <class Depth> double error_percent(int cells, Depth&& depth_m) {
    const double cell_m = side_m / cells;
    double error = 0, sum = 0;
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            const double h = exact_m((i + 0.5) * cell_m, (j + 0.5) * cell_m, cell_m, to_s);
            error += std::abs(depth_m(i, j) - h), sum += h;
        }
    return 100 * error / sum;
}

} // namespace bench::round_current
