// A round viscous current between two moments of its similarity solution: the error reached, and the time it took.
//
//   current [cells along a side, 256] [step as a share of the time, 0.03]
//
// 0.786 mL of water on a dry level plane of 128 mm, from 0.05 s (radius 21 mm) to 60 s (50 mm); gravity and viscosity
// alone, h = h_c (1 - (r/R)²)^(1/3), R = 0.89391 (g V³ t/3ν)^(1/8) (Huppert 1982, J. Fluid Mech. 121). A job that
// general solvers of differential equations can do as well. Time of the processor, one thread; standard output is
// CSV.
#include "grid/calm_threads.h"
#include "water/flow.h"

#include <cmath>
#include <cstdlib>
#include <ctime>
#include <fmt/core.h>
#include <omp.h>

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;

constexpr double side_m = 0.128, volume_m3 = 0.786e-6, nu_m2_s = 1.0034e-6, g_m_s2 = 9.80665, from_s = 0.05,
                 to_s = 60;

/// Mean of the similarity solution over a cell centred at (x, y), by 4 × 4 points.
double exact_m(double x, double y, double cell_m, double t) {
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

void run(int cells, double share) {
    const double cell_m = side_m / cells;
    materials::Paper glass;
    glass.relief_rms_m = 0;
    water::FilmParams p;
    p.nu_m2_s = nu_m2_s, p.gamma_N_m = 0, p.held_m = 0, p.valley_share = 0, p.retention_m2_s2 = 0;
    p.inertia = p.contact_line = false;
    auto s = sheet::SheetState::make(side_m, side_m, cell_m, glass, {}, sheet::BoardKind::sealed, {}, 1);
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i)
            s.film_m(i, j) = static_cast<float>(exact_m((i + 0.5) * cell_m, (j + 0.5) * cell_m, cell_m, from_s));
    s.wake();
    water::FilmSolver solver(s, p);
    solver.wake(s, p);
    const std::clock_t start = std::clock();
    int steps = 0;
    for (double t = from_s; t < to_s - 1e-9;) {
        double dt = std::min(share * t, to_s - t);
        while (!solver.advance(s, p, dt).accepted)
            dt /= 2;
        t += dt;
        if (++steps % 4 == 0)
            s.wake(), solver.wake(s, p);
    }
    const double cpu_s = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    double error = 0, sum = 0;
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            const double h = exact_m((i + 0.5) * cell_m, (j + 0.5) * cell_m, cell_m, to_s);
            error += std::abs(s.film_m(i, j) - h), sum += h;
        }
    fmt::print("# {} x {} cells, steps of {} % of the time: {} steps, mean error {:.2f} %, {:.2f} s of one core\n",
               cells, cells, 100 * share, steps, 100 * error / sum, cpu_s);
    fmt::print("cells,step_share,steps,error_percent,cpu_s\n{},{},{},{:.4f},{:.3f}\n", cells, share, steps,
               100 * error / sum, cpu_s);
}

} // namespace

int main(int argc, char** argv) {
    const int cells = argc > 1 ? std::atoi(argv[1]) : 256;
    const double share = argc > 2 ? std::atof(argv[2]) : 0.03;
    if (cells < 64 || cells > 2048 || !(share > 0 && share <= 0.1)) {
        fmt::print(stderr, "current: cells must lie in 64 ... 2048 and the step in 0 ... 0.1 of the time\n");
        return 1;
    }
    omp_set_num_threads(1);
    run(cells, share);
}
