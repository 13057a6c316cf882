// What each process costs, per awake cell and call: a quarter sheet (760 × 560 cells of 0.5 mm) with relief, washed
// all over with two pigments, looked at three times as it dries: wet, moist (film in the valleys only), damp (no film).
//
//   processes [seconds a process, 0.2]
//
// A rehearsal paints the sheet and lets it dry; the steps measured are as long as its own were. Every call begins at
// the same moment, with a solver that knows the step before. Column `each` says how often a rehearsal calls: each film
// step; each slow step (the film's, when that is longer than a quarter of a second); every 12 or 4 steps, and after a
// landing; when 3 % of the wet pattern have changed; every 15 s (stages) and 60 s (ledger); for a picture; for a touch
// of the brush. Cells are those the process goes over: tiles with film, damp tiles, the whole sheet, those touched.
//
// Settling, capture, soaking out, stirring and binding are one sweep over the sheet, `settle`; `fibre` is uptake,
// exchange and creep as they are called together. Standard output is a CSV table; lines with # are for reading.
#include "fibre/through.h"
#include "fibre/uptake.h"
#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/rows.h"
#include "pigment/bind.h"
#include "pigment/stir.h"
#include "pigment/transport.h"
#include "pigment/viscosity.h"
#include "quarter_sheet.h"
#include "rehearsal/count_stages.h"
#include "rehearsal/rehearsal.h"
#include "sheet/look.h"
#include "sheet/stage.h"
#include "triad.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/core.h>
#include <functional>
#include <omp.h>
#include <stdexcept>

TIDEMARK_BRISK_THREADS

namespace {

using namespace tidemark;

plan::Plan one_wash() {
    const auto presets = materials::Presets::read(grid::presets_folder());
    plan::Plan p = bench::sheet_to_paint(presets, bench::quarter_width_m);
    p.steps.push_back({.name = "wash", .line = 1, .start = plan::AtTime{0},
                       .act = plan::Wash{.mix = bench::sky, .film_m = 180e-6, .pace_m2_s = 20e-4}});
    return p;
}

/// All that a step changes.
struct Moment {
    sheet::SheetState sheet;
    water::FilmSolver film;
    air::AirWorkspace air;
    fibre::FibreWorkspace fibre;
    pigment::PigmentWorkspace pigment;
};

/// A rehearsal followed until a stage has come, and how long its steps were.
class Followed {
  public:
    explicit Followed(const plan::Plan& plan) : run_(plan, {.cell_m = 0.5e-3}) {}
    void until(const std::function<bool(const rehearsal::Rehearsal&)>& reached) {
        while (!reached(run_))
            step();
        for (int k = 0; k < recent; ++k) // lengths of this stage alone
            step();
    }
    Moment moment() const { return {run_.sheet(), {}, air_before_, {}, {}}; }
    double dt_s() const { // of the middle one of the last few: some are cut short by an event
        std::vector<double> last(lengths_.end() - recent, lengths_.end());
        std::nth_element(last.begin(), last.begin() + recent / 2, last.end());
        return last[recent / 2];
    }

  private:
    static constexpr int recent = 9;
    rehearsal::Rehearsal run_;
    air::AirWorkspace air_, air_before_; ///< the pattern of wet paper of the last update, and of the one before
    std::vector<double> lengths_;
    void step() {
        const double before_s = run_.time_s();
        if (!run_.step())
            throw std::logic_error("the sheet was dry before the stage came");
        lengths_.push_back(run_.time_s() - before_s);
        if (air::changed_share(run_.sheet(), air_) > 0.03) {
            air_before_ = air_;
            air::update_sideways(run_.sheet(), air_);
        }
    }
};

bool washed(const rehearsal::Rehearsal& r) { return !r.acting() && r.time_s() > 60; }
bool broken(const rehearsal::Rehearsal& r) {
    return washed(r) && sheet::has_reached(r.record().stages.back().share, sheet::CellStage::moist);
}
bool bare(const rehearsal::Rehearsal& r) { return washed(r) && !r.sheet().film_tiles.any(); }

/// One stage of the sheet, and what is measured on it.
class Case {
  public:
    Case(const char* name, const plan::Plan& plan, const Followed& from, double budget_s)
        : name_(name), plan_(plan), params_(water::FilmParams::of(plan.paper)), dt_s_(from.dt_s()),
          budget_s_(budget_s), before_(from.moment()) {
        Moment& m = before_;
        m.film = water::FilmSolver(m.sheet, params_);
        m.sheet.wake();
        m.film.wake(m.sheet, params_);
        for (int k = 0; k < 3; ++k) { // a solver that knows the step before, and scratch that fits
            film_step(m);
            pigment::advect(m.sheet, m.pigment, dt_s_);
            fibre::advance(m.sheet, m.fibre, dt_s_);
            air::advance(m.sheet, m.air, dt_s_);
            pigment::advance(m.sheet, m.pigment, dt_s_);
        }
        now_ = after_ = before_;
        film_step(after_);
    }
    void measure(int threads) {
        omp_set_num_threads(threads);
        threads_ = threads;
        // 30 floats a cell are touched in a film step; the other processes have less, none fits a cache.
        triad_ns_ = bench::triad_ns(static_cast<std::size_t>(sheet_cells()) * 30 * sizeof(float), budget_s_);
        fmt::print("# {}, {} thread{}: steps of {:.2f} s, {} cells in tiles with film, {} in damp ones; "
                   "triad {:.2f} ns\n",
                   name_, threads, threads > 1 ? "s" : "", dt_s_, film_cells(), damp_cells(), triad_ns_);
        if (has_film())
            with_film();
        slow();
        now_and_then();
        hand();
    }

  private:
    const char* name_;
    const plan::Plan& plan_;
    water::FilmParams params_;
    double dt_s_, budget_s_;
    Moment before_, after_; ///< a film step
    Moment now_;
    int threads_ = 1;
    double triad_ns_ = 1;

    std::int64_t film_cells() const { return before_.sheet.film_tiles.cells(); }
    std::int64_t damp_cells() const { return before_.sheet.damp_tiles.cells(); }
    std::int64_t sheet_cells() const { return std::int64_t{before_.sheet.geometry.nx} * before_.sheet.geometry.ny; }
    bool has_film() const { return before_.sheet.film_tiles.any(); }
    void film_step(Moment& m) {
        if (!m.sheet.film_tiles.any())
            return;
        pigment::film_viscosity(m.sheet, m.film.nu_factor());
        if (!m.film.advance(m.sheet, params_, dt_s_).accepted)
            throw std::logic_error("a step as long as the rehearsal's was refused");
    }
    /// The fastest of many calls, each from the same moment.
    template <class F>
    void time(const char* process, const char* each, std::int64_t cells, const Moment& from, F&& f) {
        double best = 1e30;
        int runs = 0;
        for (const double end = bench::now_s() + budget_s_; bench::now_s() < end || runs < 3; ++runs) {
            now_ = from;
            const double start = bench::now_s();
            f(now_);
            best = std::min(best, bench::now_s() - start);
        }
        const double ns = 1e9 * best / static_cast<double>(cells);
        fmt::print("{},{},{},{},{},{:.3f},{:.1f}\n", name_, process, each, threads_, cells, ns, ns / triad_ns_);
        std::fflush(stdout);
    }
    void with_film() {
        constexpr const char* each = "film step";
        time("viscosity", each, film_cells(), before_,
             [](Moment& m) { pigment::film_viscosity(m.sheet, m.film.nu_factor()); });
        int cycles = 0;
        time("film", each, film_cells(), before_,
             [&](Moment& m) { cycles = m.film.advance(m.sheet, params_, dt_s_).cycles; });
        fmt::print("# that step of the film took {} cycles\n", cycles);
        time("transport", each, film_cells(), after_, [&](Moment& m) { pigment::advect(m.sheet, m.pigment, dt_s_); });
        time("ways", "4 steps", film_cells(), after_, [&](Moment& m) { m.film.update_ways(m.sheet, params_); });
    }
    void slow() {
        constexpr const char* each = "slow step";
        time("fibre", each, damp_cells(), after_, [&](Moment& m) { fibre::advance(m.sheet, m.fibre, dt_s_); });
        if (has_film())
            time("uptake", each, damp_cells(), after_, [&](Moment& m) { uptake(m.sheet); });
        time("exchange", each, damp_cells(), after_, [&](Moment& m) { exchange(m.sheet); });
        time("creep", each, damp_cells(), after_, [&](Moment& m) {
            fibre::creep(m.sheet, m.fibre.creep, m.sheet.front_kg_m2, dt_s_);
            fibre::creep(m.sheet, m.fibre.creep, m.sheet.back_kg_m2, dt_s_);
        });
        time("air", each, damp_cells(), after_, [&](Moment& m) { air::advance(m.sheet, m.air, dt_s_); });
        time("settle", each, damp_cells(), after_, [&](Moment& m) { pigment::advance(m.sheet, m.pigment, dt_s_); });
    }
    void now_and_then() {
        const std::int64_t n = sheet_cells();
        time("sleepers", "step", n, after_, [](Moment& m) { m.sheet.film_at_sleepers(); });
        time("wake", "12 steps", n, after_, [](Moment& m) { m.sheet.wake(); });
        time("wake film", "12 steps", n, after_, [&](Moment& m) { m.film.wake(m.sheet, params_); });
        time("bind dried", "12 steps", n, after_, [](Moment& m) { pigment::bind_dried(m.sheet); });
        time("empty tiles", "12 steps", n, after_, [](Moment& m) { m.sheet.forget_empty_tiles(); });
        time("pattern", "12 steps", n, after_, [](Moment& m) { air::changed_share(m.sheet, m.air); });
        time("sideways", "changed pattern", n, after_, [](Moment& m) { air::update_sideways(m.sheet, m.air); });
        time("stages", "15 s", n, after_, [](Moment& m) { rehearsal::count_stages(m.sheet, {}); });
        time("ledger", "60 s", n, after_, [](Moment& m) { sheet::check(m.sheet, {}); });
        time("look dried", "picture", n, after_, [](Moment& m) { sheet::look(m.sheet, sheet::LookAs::dried); });
        time("look now", "picture", n, after_, [](Moment& m) { sheet::look(m.sheet, sheet::LookAs::as_now); });
    }
    /// A second wash over all of it: what it takes to plan its touches, and to lay them.
    void hand() {
        using sheet::SheetState;
        const hand::LandOn land{.dry_cell = [](SheetState& s, int i, int j) { pigment::begin_pass(s, i, j); },
                                .wet_cell = [](SheetState& s, int i, int j) { pigment::stir_cell(s, i, j, 0.3); },
                                .scrub = pigment::scrub_cell};
        const hand::Work wash = hand::work_of(plan_, plan_.steps[0], before_.sheet);
        const std::int64_t n = static_cast<std::int64_t>(wash.touches.size());
        time("plan a wash", "touch", n, after_, [&](Moment& m) { hand::work_of(plan_, plan_.steps[0], m.sheet); });
        sheet::Ledger ledger;
        ledger.pigment_laid_kg.assign(plan_.pigments.size(), 0), ledger.pigment_lifted_kg = ledger.pigment_laid_kg;
        sheet::ActRecord record;
        record.pigment_kg = record.pigment_lifted_kg = ledger.pigment_laid_kg;
        record.cells = {before_.sheet.geometry.nx, before_.sheet.geometry.ny};
        hand::Work work;
        time("brush", "touch", n, after_, [&](Moment& m) {
            work = wash;
            hand::play(m.sheet, plan_, work, 1e9, land, ledger, record);
        });
    }

    template <class F> static void for_stretches(const sheet::SheetState& s, F&& f) {
        constexpr int most = 128;
        grid::for_rows(s.geometry.ny, s.damp_tiles.cells(), [&](int j) {
            for (const grid::Span span : s.damp_tiles.spans(j))
                for (int i = span.begin, end = std::min(span.end, s.geometry.nx); i < end; i += most)
                    f(i, j, std::min(most, end - i));
        });
    }
    /// As fibre::advance does it.
    void uptake(sheet::SheetState& s) const {
        const double S = s.paper.sorptivity_front_m_s05;
        const fibre::UptakeStep step{S * S * dt_s_, sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity),
                                     sheet::half_capacity_kg_m2(s.paper)};
        for_stretches(s, [&](int i, int j, int n) {
            double moved[128];
            fibre::uptake_stretch(n, step, s.surface.row(j) + i, s.film_m.row(j) + i, s.film_low_m.row(j) + i,
                                  s.front_kg_m2.row(j) + i, s.back_kg_m2.row(j) + i, s.drawn_m.row(j) + i, moved);
        });
    }
    void exchange(sheet::SheetState& s) const {
        const double share = -0.5 * std::expm1(-fibre::exchange_rate_1_s(s.paper) * dt_s_);
        const double capacity = sheet::half_capacity_kg_m2(s.paper);
        for_stretches(s, [&](int i, int j, int n) {
            double run_off[128];
            fibre::through_stretch(n, share, capacity, s.front_kg_m2.row(j) + i, s.back_kg_m2.row(j) + i, run_off);
        });
    }
};

} // namespace

int main(int argc, char** argv) {
    const double budget_s = bench::budget_s(argc, argv, "a process", 0.2);
    bench::print_load();
    fmt::print("sheet,process,each,threads,cells,ns_per_cell,triads\n");
    const plan::Plan plan = one_wash();
    Followed run(plan);
    struct Stage {
        const char* name;
        bool (*reached)(const rehearsal::Rehearsal&);
    };
    for (const Stage& stage : {Stage{"wet", washed}, Stage{"moist", broken}, Stage{"damp", bare}}) {
        omp_set_num_threads(omp_get_num_procs());
        run.until(stage.reached);
        Case c(stage.name, plan, run, budget_s);
        for (int threads : {1, 2})
            c.measure(threads);
    }
}
