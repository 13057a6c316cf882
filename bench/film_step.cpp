// What a step of the film costs, per awake cell: a quarter sheet (760 × 560 cells of 0.5 mm), wet all over, with
// relief.
//
//   film_step [seconds a part, 1]
//
// prepare  pressures, mobilities, first fluxes, right-hand side, coarse coefficients
// cycle    one V-cycle of the multigrid
// update   fluxes, limiter, depths, step measures
// step     a whole step as a rehearsal takes it, with the cycles it needed
//
// A refused step is a prepare and its cycles, and changes nothing: the parts are differences of such steps. Standard
// output is a CSV table; lines with # are for reading.
#include "grid/calm_threads.h"
#include "grid/units.h"
#include "triad.h"
#include "water/flow.h"

#include <cstdlib>
#include <fmt/core.h>
#include <omp.h>
#include <stdexcept>
#include <tuple>
#include <utility>

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;

sheet::SheetState wet_sheet(double tilt_rad) {
    auto s = sheet::SheetState::make(0.380, 0.280, 0.5e-3, materials::Paper{}, {}, sheet::BoardKind::sealed, {}, 1);
    s.tilt_rad = tilt_rad;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            s.film_m(i, j) = std::max(20e-6f, 150e-6f - s.relief_m(i, j));
            s.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::wetted);
        }
    s.wake();
    return s;
}

struct Parts {
    double prepare, cycle, update, step; ///< ns a cell
    int cycles;                          ///< of the step
};

/// One board with its solver, and a moment of it to which every timed step returns.
struct Case {
    const char* name;
    double tilt_rad, dt_s;
    sheet::SheetState sheet, moment;
    water::FilmParams params;
    water::FilmSolver solver, solver_then; ///< of the same moment: it knows what its last solve left over
    int cycles = 0;

    Case(const char* board, double degrees, double dt)
        : name(board), tilt_rad(grid::rad_from_deg(degrees)), dt_s(dt), sheet(wet_sheet(tilt_rad)),
          params(water::FilmParams::of({})), solver(sheet, params) {
        solver.wake(sheet, params);
        for (double t = 1e-3; t < dt_s;) // the film settles into the relief
            t *= solver.advance(sheet, params, t).accepted ? 1.3 : 0.5;
        moment = sheet, solver_then = solver;
    }
    double cells() const { return static_cast<double>(sheet.film_tiles.cells()); }
    /// Nanoseconds a cell of one step from the moment, as after a landing: without the increments of the step before.
    double step_ns(const water::FilmParams& p, bool accepted) {
        if (accepted) {
            sheet = moment, solver = solver_then;
            step_ns(refused_after(1), false); // copying has emptied the caches
        }
        solver.forget();
        const double start = bench::now_s();
        const auto r = solver.advance(sheet, p, dt_s);
        const double seconds = bench::now_s() - start;
        if (r.accepted != accepted)
            throw std::logic_error("a step was not what it was made to be");
        cycles = r.cycles;
        return 1e9 * seconds / cells();
    }
    /// Gives up after so many cycles.
    water::FilmParams refused_after(int count) const {
        auto p = params;
        p.cycles_max = count, p.tolerance_m = 1e-15, p.refused_m = 0;
        return p;
    }
};

/// The kinds of step in turn, so that what disturbs one disturbs all; of each the fastest.
Parts measure(Case& c, double budget_s) {
    auto loose = c.params; // moves the depths after one cycle, solved or not
    loose.cycles_max = 1, loose.tolerance_m = loose.refused_m = 1;
    const std::pair<water::FilmParams, bool> kinds[] = {{c.refused_after(0), false},
                                                        {c.refused_after(1), false},
                                                        {c.refused_after(4), false},
                                                        {loose, true},
                                                        {c.params, true}};
    double best[5] = {1e30, 1e30, 1e30, 1e30, 1e30};
    for (const double end = bench::now_s() + 5 * budget_s; bench::now_s() < end || best[4] == 1e30;)
        for (int k = 0; k < 5; ++k)
            best[k] = std::min(best[k], c.step_ns(kinds[k].first, kinds[k].second));
    c.sheet = c.moment;
    return {best[0], (best[2] - best[1]) / 3, best[3] - best[1], best[4], c.cycles};
}

void report(const char* board, int threads, const Parts& parts, double triad) {
    fmt::print(
        "# {}, {} thread{}: prepare {:.1f}, cycle {:.1f}, update {:.1f}, step {:.1f} ns per cell with {} cycles; "
        "triad {:.2f} ns, a cycle is {:.0f} triads\n",
        board, threads, threads > 1 ? "s" : "", parts.prepare, parts.cycle, parts.update, parts.step, parts.cycles,
        triad, parts.cycle / triad);
    const std::pair<const char*, double> rows[] = {
        {"prepare", parts.prepare}, {"cycle", parts.cycle}, {"update", parts.update}, {"step", parts.step}};
    for (const auto& [part, ns] : rows)
        fmt::print("{},{},{},{:.3f},{:.1f}\n", board, part, threads, ns, ns / triad);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    const double budget_s = bench::budget_s(argc, argv, "a part", 1);
    bench::print_load();
    fmt::print("board,part,threads,ns_per_cell,triads\n");
    for (const auto& [board, degrees, dt_s] : {std::tuple{"level", 0.0, 0.5}, std::tuple{"8 degrees", 8.0, 0.03}}) {
        Case c(board, degrees, dt_s);
        // 30 floats a cell are touched in a step, with the coarse levels.
        const std::size_t set = static_cast<std::size_t>(c.cells()) * 30 * sizeof(float);
        for (int threads : {1, 2}) {
            omp_set_num_threads(threads);
            const double triad = bench::triad_ns(set, budget_s);
            report(board, threads, measure(c, budget_s), triad);
        }
    }
}
