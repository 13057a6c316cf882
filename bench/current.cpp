// A round viscous current between two moments of its similarity solution (round_current.h): the error reached, and the
// time it took.
//
//   current [cells along a side, 256] [step as a share of the time, 0.03]
//
// Time of the processor, one thread; standard output is CSV. `peer` is the same job by a general solver.
#include "grid/calm_threads.h"
#include "round_current.h"
#include "water/flow.h"

#include <cstdlib>
#include <ctime>
#include <fmt/core.h>
#include <omp.h>

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;
using namespace bench::round_current;

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
    const double error = error_percent(cells, [&](int i, int j) { return s.film_m(i, j); });
    fmt::print("# {} x {} cells, steps of {} % of the time: {} steps, mean error {:.2f} %, {:.2f} s of one core\n",
               cells, cells, 100 * share, steps, error, cpu_s);
    fmt::print("cells,step_share,steps,error_percent,cpu_s\n{},{},{},{:.4f},{:.3f}\n", cells, share, steps, error, cpu_s);
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
