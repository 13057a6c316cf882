// A step of the whole sheet in which its brisk tiles are stepped finely (brisk.h).
#include <algorithm>
#include <cmath>

#include "grid/problem.h"
#include "grid/rows.h"
#include "pigment/transport.h"
#include "pigment/viscosity.h"
#include "rehearsal/rehearsal.h"
#include "rehearsal/stopwatch_detail.h"

namespace tidemark::rehearsal {
namespace {

using sheet::SheetState;

template <class F> void each_span(const SheetState& s, const grid::TileSet& tiles, F&& f) {
    grid::for_rows(s.geometry.py, tiles.cells(), [&](int j) {
        for (const grid::Span& span : tiles.spans(j)) f(j, span.begin, span.end - span.begin);
    });
}

void copy(const SheetState& s, const grid::TileSet& tiles, const sheet::Field<float>& from, sheet::Field<float>& to) {
    each_span(s, tiles, [&](int j, int begin, int n) { std::copy_n(from.row(j) + begin, n, to.row(j) + begin); });
}

grid::TileSet without(const grid::TileSet& all, const grid::TileSet& part) {
    grid::TileSet rest = all;
    for (int tj = 0; tj < all.tiles_y(); ++tj)
        for (int ti = 0; ti < all.tiles_x(); ++ti)
            if (part.awake(ti, tj)) rest.set(ti, tj, false);
    rest.rebuild();
    return rest;
}

/// Takes away a depth that is not there: from the cells around, the nearest first.
void take_around(SheetState& s, int i, int j, double missing_m) {
    for (int reach = 1; missing_m > 0 && reach < std::max(s.geometry.nx, s.geometry.ny); ++reach)
        for (int b = j - reach; b <= j + reach && missing_m > 0; ++b)
            for (int a = i - reach; a <= i + reach && missing_m > 0; ++a) {
                if (!s.inside(a, b) || s.film_m(a, b) <= 0) continue;
                const double has = static_cast<double>(s.film_m(a, b)) + s.film_low_m(a, b);
                const double left = std::max(has - missing_m, 0.0);
                missing_m -= has - left;
                s.film_m(a, b) = static_cast<float>(left);
                s.film_low_m(a, b) = static_cast<float>(left - s.film_m(a, b));
            }
    if (missing_m > 0) throw grid::InternalError("water that was not there has left a part of the sheet");
}

/// The outer cells have moved by what was given; what has passed differs from that by a rounding, or where an inner
/// cell had no more to give.
void settle_rim(SheetState& s, const std::vector<sheet::RimFace>& rim, double dt_s) {
    const double k = static_cast<float>(dt_s / s.geometry.cell_m);
    for (const sheet::RimFace& f : rim) {
        const double more = f.out(f.passed_m - k * f.given_m2_s);
        if (more == 0) continue;
        const int i = f.outer_i(), j = f.outer_j();
        const double depth = static_cast<double>(s.film_m(i, j)) + s.film_low_m(i, j) + more, kept = std::max(depth, 0.0);
        s.film_m(i, j) = static_cast<float>(kept);
        s.film_low_m(i, j) = static_cast<float>(kept - s.film_m(i, j));
        if (depth < 0) take_around(s, i, j, -depth);
    }
}

/// What belongs to the whole sheet comes back, whatever happens meanwhile.
struct WholeAgain {
    SheetState& s;
    water::FilmSolver& film;
    grid::TileSet tiles = s.film_tiles;
    double time_s = s.time_s;
    ~WholeAgain() {
        s.film_tiles = std::move(tiles), s.time_s = time_s;
        film.leave_unsolved(nullptr);
    }
};

} // namespace

/// Returns the time taken; 0: the whole sheet could not be solved, and nothing was changed.
double Rehearsal::advance_in_parts(Parts& parts, double cells_a_step) {
    const double dt_s = parts.step_s;
    if (!brisk_.film) brisk_.film = std::make_unique<water::FilmSolver>(sheet_, film_params_);
    if (brisk_.low.empty()) brisk_.low.resize(sheet_.geometry.px, sheet_.geometry.py);
    const WholeAgain again{.s = sheet_, .film = film_};
    {
        Stopwatch watch(cost_.seconds[1]);
        copy(sheet_, sheet_.film_tiles, sheet_.film_low_m, brisk_.low);
        pigment::film_viscosity(sheet_, film_.nu_factor());
        film_.leave_unsolved(&parts.core);
        const water::StepResult r = film_.advance(sheet_, film_params_, dt_s);
        cost_.cycles += r.cycles;
        if (!r.accepted) return ++cost_.refused, 0;
        ++cost_.film_steps, cost_.cell_steps += static_cast<double>(sheet_.film_tiles.cells());
        add_brisk(sheet_, parts, cells_a_step);
        brisk_.rim = sheet::rim_of(sheet_, parts.brisk);
        copy(sheet_, parts.brisk, sheet_.film_before_m, sheet_.film_m);
        copy(sheet_, parts.brisk, brisk_.low, sheet_.film_low_m);
    }
    step_brisk_tiles(parts, cells_a_step);
    Stopwatch watch(cost_.seconds[2]);
    settle_rim(sheet_, brisk_.rim, dt_s);
    sheet_.film_tiles = without(again.tiles, parts.brisk);
    brisk_.carriage.end(sheet_, brisk_.rim);
    pigment::advect(sheet_, pigment_, dt_s);
    film_.forget_in(parts.brisk);
    return dt_s;
}

void Rehearsal::step_brisk_tiles(const Parts& parts, double cells_a_step) {
    brisk_.carriage.begin(sheet_, brisk_.rim, parts.step_s);
    sheet_.film_tiles = parts.brisk;
    brisk_.film->take_part(sheet_, film_, brisk_.rim);
    int steps = 0;
    for (double left_s = parts.step_s; left_s > 1e-9; ++steps) {
        if (steps > 0 && play_hand()) land_in_part();
        else if (steps > 0) brisk_.film->update_ways_in_part(sheet_, film_params_);
        const double until_s = std::min(left_s, std::max(next_tick_s() - sheet_.time_s, 1e-6));
        const double step_s = until_s / std::ceil(until_s / step_size_.film_s() - 1e-6);
        const double taken_s = advance_brisk(step_s, cells_a_step);
        left_s -= taken_s, sheet_.time_s += taken_s;
    }
    film_.update_ways_in_part(sheet_, film_params_);
}

/// Strokes have landed while a part is stepped. All the rest is told when it is whole again.
void Rehearsal::land_in_part() {
    must_wake_ = true;
    step_size_.landed(fastest_wave_m_s(), sheet_.geometry.cell_m);
    deepest_touched_m_ = 0;
    brisk_.film->update_ways_in_part(sheet_, film_params_);
}

double Rehearsal::advance_brisk(double dt_s, double cells_a_step) {
    {
        Stopwatch watch(cost_.seconds[1]);
        pigment::film_viscosity(sheet_, brisk_.film->nu_factor());
        dt_s = solve_film(*brisk_.film, dt_s, cells_a_step);
        ++cost_.brisk_steps;
    }
    Stopwatch watch(cost_.seconds[2]);
    brisk_.carriage.pass(sheet_, brisk_.rim, dt_s);
    pigment::advect(sheet_, brisk_.pigment, dt_s);
    return dt_s;
}

} // namespace tidemark::rehearsal
