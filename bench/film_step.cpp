// What a step of the film costs, per awake cell, on a sheet wet all over, with relief: once so small that all its
// fields lie in the processor's last cache, once a quarter sheet at 0.5 mm, once one at 0.25 mm, whose fields do not.
//
//   film_step [seconds a part, 1] [triads: those alone]
//
// prepare  pressures, mobilities, first fluxes, right-hand side, coarse coefficients
// cycle    one V-cycle of the multigrid
// update   fluxes, limiter, depths, step measures
// step     a whole step as a rehearsal takes it, with the cycles it needed
//
// Column `floor` says how many times the least that a part can take it takes: the bytes that it must move for each cell,
// by the triad of a set as large as this film's and as many threads. Bytes are counted, not traced: every float read or
// written once, 48 to prepare (depth, relief in; pressure, mobilities, first fluxes, right-hand side out), 133 a cycle
// (100 on the finest level, a third of it below), 36 to update.
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
#include <string>
#include <tuple>
#include <utility>

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;

struct Size {
    const char* name;
    double width_m, height_m, cell_m;
    /// 30 floats a cell are touched in a step, with the coarse levels.
    std::size_t set_bytes() const { return static_cast<std::size_t>(width_m * height_m / (cell_m * cell_m)) * 30 * sizeof(float); }
};

constexpr Size sizes[] = {{"cache", 0.190, 0.140, 0.5e-3}, {"quarter", 0.380, 0.280, 0.5e-3}, {"memory", 0.380, 0.280, 0.25e-3}};
constexpr double prepare_bytes = 48, cycle_bytes = 133, update_bytes = 36, triad_bytes = 12;

sheet::SheetState wet_sheet(const Size& size, double tilt_rad) {
    auto s = sheet::SheetState::make(size.width_m, size.height_m, size.cell_m, materials::Paper{}, {}, sheet::BoardKind::sealed, {}, 1);
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

    Case(const Size& size, const char* board, double degrees, double dt)
        : name(board), tilt_rad(grid::rad_from_deg(degrees)), dt_s(dt), sheet(wet_sheet(size, tilt_rad)),
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
        const double start = bench::busy_s();
        const auto r = solver.advance(sheet, p, dt_s);
        const double seconds = bench::busy_s() - start;
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

void report(const Size& size, const char* board, int threads, const Parts& parts, double triad) {
    fmt::print("# {}, {}, {} thread{}: prepare {:.1f}, cycle {:.1f}, update {:.1f}, step {:.1f} ns per cell with {} cycles; "
               "triad {:.3f} ns, a cycle is {:.0f} triads\n",
               size.name, board, threads, threads > 1 ? "s" : "", parts.prepare, parts.cycle, parts.update, parts.step,
               parts.cycles, triad, parts.cycle / triad);
    const std::tuple<const char*, double, double> rows[] = {
        {"prepare", parts.prepare, prepare_bytes},
        {"cycle", parts.cycle, cycle_bytes},
        {"update", parts.update, update_bytes},
        {"step", parts.step, prepare_bytes + parts.cycles * cycle_bytes + update_bytes}};
    for (const auto& [part, ns, bytes] : rows)
        fmt::print("{},{},{},{},{:.3f},{:.1f},{:.2f}\n", size.name, board, part, threads, ns, ns / triad,
                   ns / (bytes / triad_bytes * triad));
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv) {
    const double budget_s = bench::budget_s(argc, argv, "a part", 1);
    const bool triads_alone = argc > 2 && std::string(argv[2]) == "triads";
    bench::print_load();
    fmt::print("size,board,part,threads,ns_per_cell,triads,floor\n");
    for (const Size& size : sizes) {
        for (int threads : {1, 2}) {
            omp_set_num_threads(threads);
            fmt::print("{},triad,{:.0f} MB,{},{:.4f},1,1\n", size.name, 1e-6 * static_cast<double>(size.set_bytes()), threads,
                       bench::triad_ns(size.set_bytes(), budget_s));
        }
        if (triads_alone) continue;
        for (const auto& [board, degrees, dt_s] : {std::tuple{"level", 0.0, 0.5}, std::tuple{"8 degrees", 8.0, 0.03}}) {
            Case c(size, board, degrees, dt_s);
            for (int threads : {1, 2}) {
                omp_set_num_threads(threads);
                const double triad = bench::triad_ns(size.set_bytes(), budget_s); // of this minute: others use the machine
                report(size, board, threads, measure(c, budget_s), triad);
            }
        }
    }
}
