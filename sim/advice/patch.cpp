#include "advice/patch.h"

#include "advice/trials.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>

namespace tidemark::advice {

namespace {

constexpr double slowest_m2_s = 0.5e-4, fastest_m2_s = 100e-4; ///< of any hand, as the readers have it

struct Window {
    int i0 = 0, j0 = 0, nx = 0, ny = 0;
};

/// Its piece of the sheet; nothing of it here: area 0.
Piece piece_of(const sheet::ActRecord& act, const Window& w, double cell_m) {
    Piece p{act.step, act.start_s, 1e300, 0, 0, 0};
    double all = 0, here = 0;
    const sheet::CellFrame& f = act.cells.frame();
    for (int j = f.j0; j < f.j1; ++j)
        for (int i = f.i0; i < f.i1; ++i) {
            if (!act.cells.touched(i, j))
                continue;
            all += 1;
            if (i < w.i0 || i >= w.i0 + w.nx || j < w.j0 || j >= w.j0 + w.ny)
                continue;
            here += 1;
            p.first_s = std::min<double>(p.first_s, act.cells.after_s(i, j));
            p.last_s = std::max<double>(p.last_s, act.cells.after_s(i, j) + 1.0);
        }
    p.area_m2 = here * cell_m * cell_m;
    p.share = all > 0 ? here / all : 0;
    return p;
}

int part_of(int count, double share) { return std::max(1, static_cast<int>(std::lround(count * share))); }

/// An act of the sheet as the hand does it here.
struct Fitted {
    const Piece& piece;
    double x0_m, y0_m, width_m, height_m;
    double longer_s = 0; ///< of a drying

    double took_s() const { return std::max(1.0, piece.last_s - piece.first_s); }
    void operator()(plan::Wash& a) const {
        a.brush.reset();
        const double x_m = a.from_x_m - x0_m, y_m = a.from_y_m - y0_m;
        const bool here = x_m > 0 && y_m > 0 && x_m < width_m && y_m < height_m;
        if (a.travel == plan::Travel::from_point && here)
            a.from_x_m = x_m, a.from_y_m = y_m;
        else if (a.travel != plan::Travel::downhill)
            a.travel = plan::Travel::rows;
        at_its_pace(a);
    }
    void operator()(plan::Charge& a) const {
        a.count = part_of(a.count, piece.share);
        a.seconds_per_drop = took_s() / a.count;
    }
    void operator()(plan::Spatter& a) const { a.count = part_of(a.count, piece.share); }
    void operator()(plan::Dry& a) const {
        a.until.reset();
        a.longest_s = std::max(1.0, took_s() + longer_s);
    }
    template <class Act> void operator()(Act& a) const {
        if constexpr (requires { a.pace_m2_s; })
            at_its_pace(a);
    }
    template <class Act> void at_its_pace(Act& a) const {
        a.pace_m2_s = std::clamp(piece.area_m2 / took_s(), slowest_m2_s, fastest_m2_s);
    }
};

bool acts_on_all(const plan::Act& act) {
    return std::holds_alternative<plan::Dry>(act) || std::holds_alternative<plan::Tilt>(act);
}

} // namespace

int Patch::step_of(int sheet_step) const {
    for (std::size_t k = 0; k < pieces.size(); ++k)
        if (pieces[k].step == sheet_step)
            return static_cast<int>(k);
    return -1;
}

plan::Values Patch::values(const plan::Values& of_sheet, const Shift& shift) const {
    plan::Values v{of_sheet.paper, of_sheet.room, of_sheet.mixes, {}};
    for (const Piece& piece : pieces) {
        plan::Step step = of_sheet.steps[piece.step];
        const bool moved = shift.only >= 0 ? piece.step == shift.only : piece.start_s >= shift.from_s && piece.step != shift.dries_on;
        step.start = plan::AtTime{std::max(0.0, piece.start_s + piece.first_s + (moved ? shift.by_s : 0))};
        std::visit(Fitted{piece, x0_m, y0_m, plan.width_m, plan.height_m, piece.step == shift.dries_on ? shift.by_s : 0}, step.act);
        v.steps.push_back(std::move(step));
    }
    return v;
}

Patches::Patches(const plan::Plan& p, const sheet::Record& r) : plan_(p), record_(r) {
    for (const sheet::ActRecord& act : r.acts)
        nx_ = std::max(nx_, act.cells.nx()), ny_ = std::max(ny_, act.cells.ny());
    for (int a = 0; a < static_cast<int>(p.areas.size()); ++a)
        areas_.push_back(plan::coverage(p, a, nx_, ny_));
}

Patch Patches::around(double x_mm, double y_mm, double side_mm, int step) const {
    const double cell_m = record_.cell_m;
    const int side = static_cast<int>(std::lround(side_mm * 1e-3 / cell_m));
    Window w;
    w.nx = std::min(nx_, side), w.ny = std::min(ny_, side);
    w.i0 = std::clamp(static_cast<int>(x_mm * 1e-3 / cell_m) - w.nx / 2, 0, nx_ - w.nx);
    w.j0 = std::clamp(static_cast<int>(y_mm * 1e-3 / cell_m) - w.ny / 2, 0, ny_ - w.ny);

    Patch patch;
    plan::Plan& p = patch.plan;
    patch.x0_m = w.i0 * cell_m, patch.y0_m = w.j0 * cell_m;
    p.width_m = w.nx * cell_m, p.height_m = w.ny * cell_m;
    p.paper = plan_.paper, p.room = plan_.room, p.board = plan_.board;
    p.tilt_rad = plan_.tilt_rad, p.tilt_direction_rad = plan_.tilt_direction_rad, p.seed = plan_.seed;
    p.pigments = plan_.pigments, p.mixes = plan_.mixes, p.wants = plan_.wants;
    for (std::size_t a = 0; a < areas_.size(); ++a) {
        plan::Area area;
        area.name = plan_.areas[a].name;
        area.mask.width = w.nx, area.mask.height = w.ny;
        for (int j = 0; j < w.ny; ++j)
            for (int i = 0; i < w.nx; ++i)
                area.mask.value.push_back(areas_[a](w.i0 + i, w.j0 + j));
        p.areas.push_back(std::move(area));
    }
    const int drying = drying_after(plan_, step);
    double until_s = 1e300;
    for (const sheet::ActRecord& act : record_.acts)
        if (act.step == drying)
            until_s = act.start_s;
    for (const sheet::ActRecord& act : record_.acts) {
        if (act.start_s > until_s)
            continue;
        Piece piece = piece_of(act, w, cell_m);
        if (acts_on_all(plan_.steps[act.step].act))
            piece.first_s = 0, piece.last_s = act.end_s - act.start_s, piece.share = 1;
        else if (piece.area_m2 == 0)
            continue;
        patch.pieces.push_back(piece);
    }
    p.steps = patch.values(as_planned(plan_)).steps;
    if (drying >= 0 && patch.step_of(drying) >= 0 && patch.step_of(step) >= 0)
        patch.stop_after = {patch.step_of(step), patch.step_of(drying)};
    return patch;
}

} // namespace tidemark::advice
