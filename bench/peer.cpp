// The round current of round_current.h by a general solver: CVODE of SUNDIALS, backward differences of order 1 to 5 with
// steps and order of its own choice, Newton, GMRES, the diagonal of the Jacobian as preconditioner. Built only where
// libsundials-dev is found.
//
//   peer [cells along a side, 256] [relative tolerance, 1e-3]
//
// Fluxes through faces with the mean of the two depths, in double: in space the same problem and about the same error
// as film cells have. The library chooses its steps; what it is given, right-hand side and diagonal, is vectorised by
// the compiler (AVX-512 where there is, as the row loops of tidemark are). Absolute tolerance: 1e-4 of the relative
// one, in metres; depths are 0.1 to 1 mm. Time of the processor, one thread; standard output is CSV.
#include "grid/rows.h"
#include "round_current.h"

#include <cstdlib>
#include <ctime>
#include <fmt/core.h>
#include <vector>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_spgmr.h>

namespace {

using namespace bench::round_current;

/// What CVODE hands back to its callbacks.
struct Problem {
    int cells;
    double k; ///< g/(3ν dx²): fluxes are k h³ Δh
    std::vector<double> diagonal;
};

/// Of a face: the mean of the two depths. The solver may try depths a little below 0, where water would run uphill and
/// steps would become ever shorter.
inline double depth_at_face(double a, double b) {
    const double m = 0.5 * (a + b);
    return m > 0 ? m : 0;
}

inline double lets_through(double k, double a, double b) {
    const double m = depth_at_face(a, b);
    return k * m * m * m;
}

/// dh/dt of the inner cells of a row.
TIDEMARK_CLONES void rate_row(int n, double k, const double* __restrict above, const double* __restrict here,
                              const double* __restrict below, double* __restrict rate) {
    for (int i = 1; i < n - 1; ++i)
        rate[i] = lets_through(k, here[i], here[i + 1]) * (here[i + 1] - here[i]) +
                  lets_through(k, here[i], here[i - 1]) * (here[i - 1] - here[i]) +
                  lets_through(k, here[i], below[i]) * (below[i] - here[i]) +
                  lets_through(k, here[i], above[i]) * (above[i] - here[i]);
}

/// What a face adds to minus the Jacobian's diagonal, seen from the cell of depth a.
inline double on_diagonal(double k, double a, double b) {
    const double m = depth_at_face(a, b);
    return k * m * m * (m - 1.5 * (b - a));
}

TIDEMARK_CLONES void diagonal_row(int n, double k, const double* __restrict above, const double* __restrict here,
                                  const double* __restrict below, double* __restrict d) {
    for (int i = 1; i < n - 1; ++i)
        d[i] = on_diagonal(k, here[i], here[i + 1]) + on_diagonal(k, here[i], here[i - 1]) +
               on_diagonal(k, here[i], below[i]) + on_diagonal(k, here[i], above[i]);
}

/// The current never comes to the border of the plane: its outermost cells stay empty.
template <class Row> void over_rows(const Problem& p, const double* h, double* out, Row&& row) {
    const auto n = static_cast<std::size_t>(p.cells);
    for (std::size_t j = 1; j + 1 < n; ++j)
        row(p.cells, p.k, h + (j - 1) * n, h + j * n, h + (j + 1) * n, out + j * n);
}

int rate(realtype, N_Vector depth, N_Vector out, void* user) {
    const auto& p = *static_cast<Problem*>(user);
    N_VConst(0, out);
    over_rows(p, N_VGetArrayPointer(depth), N_VGetArrayPointer(out), rate_row);
    return 0;
}

int prepare(realtype, N_Vector depth, N_Vector, booleantype, booleantype* is_new, realtype, void* user) {
    auto& p = *static_cast<Problem*>(user);
    over_rows(p, N_VGetArrayPointer(depth), p.diagonal.data(), diagonal_row);
    *is_new = 1;
    return 0;
}

int precondition(realtype, N_Vector, N_Vector, N_Vector left, N_Vector out, realtype gamma, realtype, int, void* user) {
    const auto& p = *static_cast<Problem*>(user);
    const double* r = N_VGetArrayPointer(left);
    double* z = N_VGetArrayPointer(out);
    for (std::size_t c = 0; c < p.diagonal.size(); ++c)
        z[c] = r[c] / (1 + gamma * p.diagonal[c]);
    return 0;
}

bool run(int cells, double tolerance) {
    const double cell_m = side_m / cells;
    const auto all = static_cast<std::size_t>(cells) * cells;
    Problem problem{cells, g_m_s2 / (3 * nu_m2_s * cell_m * cell_m), std::vector<double>(all)};
    SUNContext context = nullptr;
    SUNContext_Create(nullptr, &context);
    N_Vector depth = N_VNew_Serial(static_cast<sunindextype>(all), context);
    double* h = N_VGetArrayPointer(depth);
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i)
            h[static_cast<std::size_t>(j) * cells + i] = exact_m((i + 0.5) * cell_m, (j + 0.5) * cell_m, cell_m, from_s);
    void* solver = CVodeCreate(CV_BDF, context);
    SUNLinearSolver gmres = SUNLinSol_SPGMR(depth, SUN_PREC_LEFT, 30, context);
    bool ready = CVodeInit(solver, rate, from_s, depth) == CV_SUCCESS;
    ready = ready && CVodeSetUserData(solver, &problem) == CV_SUCCESS;
    ready = ready && CVodeSStolerances(solver, tolerance, 1e-4 * tolerance) == CV_SUCCESS;
    ready = ready && CVodeSetMaxNumSteps(solver, 20'000) == CV_SUCCESS;
    ready = ready && CVodeSetLinearSolver(solver, gmres, nullptr) == CV_SUCCESS;
    ready = ready && CVodeSetPreconditioner(solver, prepare, precondition) == CV_SUCCESS;
    const std::clock_t start = std::clock();
    realtype t = from_s;
    ready = ready && CVodeSetStopTime(solver, to_s) == CV_SUCCESS && CVode(solver, to_s, depth, &t, CV_NORMAL) >= 0;
    const double cpu_s = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    long steps = 0, iterations = 0;
    CVodeGetNumSteps(solver, &steps), CVodeGetNumLinIters(solver, &iterations);
    const double error =
        error_percent(cells, [&](int i, int j) { return h[static_cast<std::size_t>(j) * cells + i]; });
    fmt::print("# {} x {} cells, tolerance {}: {} steps, {} iterations, mean error {:.2f} %, {:.2f} s of one core\n", cells,
               cells, tolerance, steps, iterations, error, cpu_s);
    fmt::print("cells,tolerance,steps,error_percent,cpu_s\n{},{},{},{:.4f},{:.3f}\n", cells, tolerance, steps, error, cpu_s);
    CVodeFree(&solver);
    SUNLinSolFree(gmres);
    N_VDestroy(depth);
    SUNContext_Free(&context);
    return ready;
}

} // namespace

int main(int argc, char** argv) {
    const int cells = argc > 1 ? std::atoi(argv[1]) : 256;
    const double tolerance = argc > 2 ? std::atof(argv[2]) : 1e-3;
    if (cells < 64 || cells > 2048 || !(tolerance > 0 && tolerance <= 0.1)) {
        fmt::print(stderr, "peer: cells must lie in 64 ... 2048 and the tolerance in 0 ... 0.1\n");
        return 1;
    }
    if (!run(cells, tolerance)) {
        fmt::print(stderr, "peer: CVODE gave up\n");
        return 1;
    }
}
