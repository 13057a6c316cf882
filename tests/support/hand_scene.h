/// A hand at a sheet on which nothing flows or dries.
#pragma once
#include "hand/touch.h"
#include "support/small_plan.h"

namespace tidemark::scene {

struct HandScene {
    plan::Plan plan;
    sheet::SheetState s;
    sheet::Ledger ledger;
    sheet::ActRecord record;
    hand::Work work;
    int dry_cells = 0, wet_cells = 0, scrubbed = 0; ///< landed on

    HandScene(const plan::Plan& p, double cell_m)
        : plan(p), s(sheet::SheetState::make(p.width_m, p.height_m, cell_m, p.paper, p.room,
                                             sheet::BoardKind::sealed, p.pigments, p.seed)) {
        ledger.pigment_laid_kg.assign(p.pigments.size(), 0), ledger.pigment_lifted_kg.assign(p.pigments.size(), 0);
        const auto start = sheet::check(s, ledger);
        ledger.start_kg = start.film_kg + start.front_kg + start.back_kg;
        forget();
    }
    void forget() {
        record = {};
        record.pigment_kg.assign(plan.pigments.size(), 0), record.pigment_lifted_kg.assign(plan.pigments.size(), 0);
        record.cells = {s.geometry.nx, s.geometry.ny};
    }
    void begin(const plan::Act& act) {
        forget();
        plan.steps.clear();
        add_step(plan, "act", 0, act);
        work = hand::work_of(plan, plan.steps[0], s);
    }
    void go(double until_s) {
        const hand::LandOn land{.dry_cell = [&](sheet::SheetState&, int, int) { ++dry_cells; },
                                .wet_cell = [&](sheet::SheetState&, int, int) { ++wet_cells; },
                                .scrub = [&](sheet::SheetState&, int, int, double) { ++scrubbed; }};
        hand::play(s, plan, work, until_s, land, ledger, record);
    }
    void play(const plan::Act& act) { begin(act), go(1e9); }
    double closure() const {
        const auto line = sheet::check(s, ledger);
        return std::max(line.water_closure, line.pigment_closure);
    }
};

} // namespace tidemark::scene
