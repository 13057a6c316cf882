#include "water/flow.h"

#include "grid/rows.h"
#include "grid/within.h"
#include "water/contact_line.h"
#include "water/downhill.h"
#include "water/faces.h"
#include "water/momentum_rows.h"

#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

namespace tidemark::water {
namespace {

constexpr double water_kg_m3 = 1000;
constexpr double momentum_share = 0.02; // of a flux that may be its inertia, below which what it carries is left out

void check_step(double dt_s) { grid::within("dt_s", dt_s, {1e-9, 1e5, "s"}); }

void check(const SheetState& s, const FilmParams& p) {
    p.check();
    grid::within("cell_m", s.geometry.cell_m, {0.01, 100, "mm", 1e-3});
    grid::within("tilt_rad", s.tilt_rad, {-90, 90, "degrees", std::numbers::pi / 180});
    grid::within("tilt_direction_rad", s.tilt_direction_rad, {-360, 360, "degrees", std::numbers::pi / 180});
}

double mean_G(const SheetState& s, const FilmParams& p) {
    return p.gamma_N_m / (1000.0 * s.geometry.cell_m * s.geometry.cell_m);
}

template <class F> void each_film_row(const SheetState& s, F&& f) {
    grid::for_rows(s.geometry.py, s.film_tiles.cells(), [&](int j) {
        for (const grid::Span& span : s.film_tiles.spans(j))
            f(j, span.begin, span.end);
    });
}

} // namespace

FilmSolver::FilmSolver(const SheetState& s, const FilmParams& p) : grid_(s.geometry.px, s.geometry.py, mean_G(s, p)) {
    check(s, p);
    for (auto* f : {&p_, &ahead_, &way_, &q0x_, &q0y_, &cx_, &cy_, &diagonal_, &given_, &speed_x_, &speed_y_, &depth_x_,
                    &depth_y_, &left_, &answered_})
        f->resize(s.geometry.px, s.geometry.py);
    nu_factor_.resize(s.geometry.px, s.geometry.py, 1.0f);
}

void FilmSolver::wake(SheetState& s, const FilmParams& p) {
    if (awake_.same_as(s.film_tiles))
        return update_ways(s, p);
    const bool slept = awake_.tiles_x() == 0 || !s.film_tiles.covers(awake_);
    awake_ = s.film_tiles;
    grid_.set_spans(s.film_tiles, slept);
    // A step writes awake cells only and then swaps the two fields: what sleeps must be the same in both.
    grid::for_rows(s.geometry.py, static_cast<long>(s.geometry.px) * s.geometry.py,
                   [&](int j) { std::copy_n(s.film_m.row(j), s.geometry.px, s.film_before_m.row(j)); });
    warm_ = false;
    if (slept)
        still_what_sleeps(s);
    update_ways(s, p);
}

/// What sleeps is closed and still, so that no water can cross into a tile that nobody updates.
void FilmSolver::still_what_sleeps(SheetState& s) {
    for (auto* f : {&q0x_, &q0y_, &cx_, &cy_, &way_, &p_, &ahead_, &speed_x_, &speed_y_, &depth_x_, &depth_y_,
                    &left_, &answered_})
        f->fill(0.0f);
    for (int j = 0; j < s.geometry.py; ++j) {
        int from = 0;
        const auto still = [&](int to) {
            std::fill(s.flux_x_m2_s.row(j) + from, s.flux_x_m2_s.row(j) + to, 0.0f);
            std::fill(s.flux_y_m2_s.row(j) + from, s.flux_y_m2_s.row(j) + to, 0.0f);
        };
        for (const grid::Span& span : s.film_tiles.spans(j))
            still(span.begin), from = span.end;
        still(s.geometry.px);
    }
}

void FilmSolver::update_ways(SheetState& s, const FilmParams& p) { pinned_ = set_ways(s, p, way_); }

const Field<float>& FilmSolver::depth_ahead(const SheetState& s, double dt_s) {
    const float k = static_cast<float>(dt_s / s.geometry.cell_m);
    each_film_row(s, [&](int j, int begin, int end) {
        ahead_row({.h = s.film_m.row(j),
                   .qx = s.flux_x_m2_s.row(j),
                   .qy = s.flux_y_m2_s.row(j),
                   .qy_up = s.flux_y_m2_s.row(j - 1),
                   .ahead = ahead_.row(j),
                   .k = k},
                  begin, end);
    });
    return ahead_;
}

Slope FilmSolver::slope_of(const SheetState& s, const FilmParams& p) {
    const double pull = s.tilt_rad == 0 ? 0.0 : p.gravity_m_s2 * std::sin(s.tilt_rad);
    // The cosine of a right angle is not quite nothing.
    const auto along = [&](double share) { return static_cast<float>(std::abs(share) < 1e-9 ? 0.0 : pull * share); };
    return {along(std::cos(s.tilt_direction_rad)), along(std::sin(s.tilt_direction_rad))};
}

void FilmSolver::find_pressure(const SheetState& s, const FilmParams& p) {
    const float g = static_cast<float>(p.gravity_m_s2 * std::cos(s.tilt_rad)), G = static_cast<float>(mean_G(s, p));
    each_film_row(s, [&](int j, int begin, int end) {
        pressure_row({.h = s.film_m.row(j),
                      .h_up = s.film_m.row(j - 1),
                      .h_down = s.film_m.row(j + 1),
                      .b = s.relief_m.row(j),
                      .b_up = s.relief_m.row(j - 1),
                      .b_down = s.relief_m.row(j + 1),
                      .way = way_.row(j),
                      .way_up = way_.row(j - 1),
                      .way_down = way_.row(j + 1),
                      .p = p_.row(j),
                      .diagonal = diagonal_.row(j),
                      .g = g,
                      .G = G,
                      .suction = static_cast<float>(p.retention_m2_s2),
                      .inverse_depth = static_cast<float>(1 / p.retention_depth_m)},
                     begin, end);
    });
}

/// The depths that the mobilities are made of. A front is late if its faces are as deep as they were before it came;
/// between pinned edges on a level board it makes no difference.
const Field<float>&
FilmSolver::depth_of_faces(const SheetState& s, const FilmParams& p, double dt_s, Slope slope, bool inertia) {
    if (!p.look_ahead)
        return s.film_m;
    if (slope.x != 0 || slope.y != 0) {
        foretell(s, p, p_, way_, nu_factor_, slope, dt_s, ahead_, rim_ != nullptr);
        return ahead_;
    }
    return follows_ && (!pinned_ || inertia) ? depth_ahead(s, dt_s) : s.film_m;
}

/// Speeds of the faces with the momentum that has come to them, in q0x_ and q0y_. False where the step is so long, or
/// all water so shallow, that friction leaves nothing of it: he²/dt beside 3ν. After such a step faces begin at rest.
bool FilmSolver::carry_momentum(const SheetState& s, const FilmParams& p, double dt_s) {
    float deepest = 0;
#pragma omp parallel for schedule(static, grid::rows_in_turn(s.geometry.py)) reduction(max : deepest) if (s.film_tiles.cells() > grid::parallel_from_cells)
    for (int j = 0; j < s.geometry.py; ++j)
        for (const grid::Span& span : s.film_tiles.spans(j))
            deepest = std::max(deepest, deepest_of_row(s.film_m.row(j), span.begin, span.end));
    const double moving = deepest - p.held_m, lag = moving > 0 ? moving * moving / dt_s : 0;
    if (lag < momentum_share * 3 * p.nu_m2_s)
        return false;
    const float k = static_cast<float>(moved_dt_s_ / s.geometry.cell_m), held = static_cast<float>(p.held_m);
    const auto &qx = s.flux_x_m2_s, &qy = s.flux_y_m2_s, &vx = speed_x_, &vy = speed_y_;
    each_film_row(s, [&](int j, int begin, int end) {
        if (has_momentum_) {
            speed_row({qx.row(j), depth_x_.row(j), speed_x_.row(j), k}, begin, end);
            speed_row({qy.row(j), depth_y_.row(j), speed_y_.row(j), k}, begin, end);
        } else {
            std::fill(speed_x_.row(j) + begin, speed_x_.row(j) + end, 0.0f);
            std::fill(speed_y_.row(j) + begin, speed_y_.row(j) + end, 0.0f);
        }
    });
    each_film_row(s, [&](int j, int begin, int end) {
        CarriedRow r{};
        r.h_a = s.film_m.row(j), r.k = k, r.held = held;
        CarriedRow x = r;
        x.h_b = r.h_a + 1;
        x.flux = qx.row(j), x.back = x.flux - 1, x.front = x.flux + 1;
        x.far_a = qy.row(j), x.far_b = x.far_a + 1, x.near_a = qy.row(j - 1), x.near_b = x.near_a + 1;
        x.speed = vx.row(j), x.speed_back = x.speed - 1, x.speed_front = x.speed + 1;
        x.speed_near = vx.row(j - 1), x.speed_far = vx.row(j + 1), x.carried = q0x_.row(j);
        carried_row(x, begin, end);
        CarriedRow y = r;
        y.h_b = s.film_m.row(j + 1);
        y.flux = qy.row(j), y.back = qy.row(j - 1), y.front = qy.row(j + 1);
        y.far_a = qx.row(j), y.far_b = qx.row(j + 1), y.near_a = y.far_a - 1, y.near_b = y.far_b - 1;
        y.speed = vy.row(j), y.speed_back = vy.row(j - 1), y.speed_front = vy.row(j + 1);
        y.speed_near = y.speed - 1, y.speed_far = y.speed + 1, y.carried = q0y_.row(j);
        carried_row(y, begin, end);
    });
    return true;
}

void FilmSolver::start_with_fluxes(const SheetState& s, double dt_s) {
    check_step(dt_s);
    for (int j = 0; j < s.geometry.py; ++j)
        for (int i = 0; i < s.geometry.px; ++i) {
            depth_x_(i, j) = 0.5f * (s.film_m(i, j) + s.film_m(i + 1, j));
            depth_y_(i, j) = 0.5f * (s.film_m(i, j) + s.film_m(i, j + 1));
        }
    has_momentum_ = true, moved_dt_s_ = dt_s;
}

/// True if the fluxes have been made with inertia.
bool FilmSolver::prepare(const SheetState& s, const FilmParams& p, double dt_s, Slope slope) {
    find_pressure(s, p);
    if (rim_)
        for (const sheet::RimFace& f : *rim_) // no more than the slope drives what the look ahead lets out there
            p_(f.outer_i(), f.outer_j()) = p_(f.inner_i(), f.inner_j());
    const bool tilted = slope.x != 0 || slope.y != 0;
    const bool inertia = p.inertia && (!tilted || p.inertia_on_tilt) && carry_momentum(s, p, dt_s);
    const Field<float>& depth = depth_of_faces(s, p, dt_s, slope, inertia);
    // A deep pool equilibrates within the step however large M is; beyond this, float noise of the depth would come
    // back amplified every step.
    const double cap_c = 3.5e4 / (p.gravity_m_s2 * std::cos(s.tilt_rad) + 4 * mean_G(s, p));
    const double dx = s.geometry.cell_m;
    FaceRow shared{};
    shared.nu3 = static_cast<float>(3 * p.nu_m2_s), shared.dx = static_cast<float>(dx);
    shared.dt = static_cast<float>(dt_s), shared.held = static_cast<float>(p.held_m);
    shared.felt_permeability = static_cast<float>(p.felt_permeability_m2);
    shared.twice_g = static_cast<float>(2 * p.gravity_m_s2 * std::cos(s.tilt_rad));
    shared.valley_share = static_cast<float>(p.valley_share);
    shared.mobility_cap = static_cast<float>(cap_c * dx * dx / dt_s);
    each_film_row(s, [&](int j, int begin, int end) {
        FaceRow x = shared;
        x.slope = slope.x, x.push = static_cast<float>(1.5 * p.air_stress_x_Pa / water_kg_m3);
        x.now_a = s.film_m.row(j), x.now_b = x.now_a + 1, x.h_a = depth.row(j), x.h_b = x.h_a + 1;
        x.bed_a = s.relief_m.row(j), x.bed_b = x.bed_a + 1;
        x.p_a = p_.row(j), x.p_b = x.p_a + 1, x.way_a = way_.row(j), x.way_b = x.way_a + 1;
        x.factor_a = nu_factor_.row(j), x.factor_b = x.factor_a + 1, x.speed = q0x_.row(j);
        x.q = q0x_.row(j), x.c = cx_.row(j), x.depth = speed_x_.row(j);
        face_row(x, begin, end, inertia);
        FaceRow y = shared;
        y.slope = slope.y, y.push = static_cast<float>(1.5 * p.air_stress_y_Pa / water_kg_m3);
        y.now_a = s.film_m.row(j), y.now_b = s.film_m.row(j + 1), y.h_a = depth.row(j), y.h_b = depth.row(j + 1);
        y.bed_a = s.relief_m.row(j), y.bed_b = s.relief_m.row(j + 1);
        y.p_a = p_.row(j), y.p_b = p_.row(j + 1), y.way_a = way_.row(j), y.way_b = way_.row(j + 1);
        y.factor_a = nu_factor_.row(j), y.factor_b = nu_factor_.row(j + 1), y.speed = q0y_.row(j);
        y.q = q0y_.row(j), y.c = cy_.row(j), y.depth = speed_y_.row(j);
        face_row(y, begin, end, inertia);
    });
    if (rim_)
        give_rim();
    const float k = static_cast<float>(dt_s / dx);
    each_film_row(s, [&](int j, int begin, int end) {
        float* r1 = given_.row(j); // not needed before the fluxes are there
        gain_row(q0x_.row(j), q0y_.row(j), q0y_.row(j - 1), r1, k, begin, end);
        grid_.take(j, {.cx = cx_.row(j), .cy = cy_.row(j), .diagonal = diagonal_.row(j), .r1 = r1}, begin, end);
    });
    grid_.coarsen();
    return inertia;
}

StepResult FilmSolver::advance(SheetState& s, const FilmParams& p, double dt_s) {
    check(s, p), check_step(dt_s);
    StepResult result;
    const Slope slope = slope_of(s, p);
    const bool inertia = prepare(s, p, dt_s, slope);
    const double ratio = last_dt_s_ > 0 ? dt_s / last_dt_s_ : 0;
    const bool warm = warm_ && ratio > 0.6 && ratio < 1.6;
    guess(s, warm ? static_cast<float>(ratio) : 0.0f);
    result.residual_m = grid_.solve(p.tolerance_m, p.cycles_max, result.cycles);
    warm_ = result.residual_m <= p.refused_m;
    last_dt_s_ = dt_s;
    if (!warm_)
        return result; // an unconverged solve must not move water: it would explode within a few steps
    const long limited = correct_fluxes(s, dt_s);
    if (limited > 0) {
        slope.x != 0 || slope.y != 0 ? limit_downhill(s, slope, dt_s, given_) : limit_fluxes(s, dt_s);
        if (rim_)
            limit_rim(s, slope);
    }
    if (rim_)
        note_rim(s, dt_s);
    result.limited_share =
        static_cast<double>(limited) / std::max<double>(static_cast<double>(s.film_tiles.cells()), 1);
    std::swap(left_, answered_);
    move_depths(s, dt_s, result);
    if (inertia)
        std::swap(depth_x_, speed_x_), std::swap(depth_y_, speed_y_);
    has_momentum_ = inertia, moved_dt_s_ = dt_s;
    follows_ = result.accepted = true;
    return result;
}

/// What the last solve has left over has gone into the depths all the same, for the fluxes keep mass. A deep film
/// answers a stray micrometre in one cell with a flux of decimetres a step, and a solve that does not know where it is
/// has to find it by cycles, or, over a bead, to live with what rounding makes of it: it grew.
void FilmSolver::guess(const SheetState& s, float factor) {
    each_film_row(s, [&](int j, int begin, int end) {
        grid_.guess_row(j, factor, answered_.row(j), left_.row(j), begin, end);
    });
    grid_.guess_pressures();
}

/// Fluxes after the solve. Returns how many cells would give more than they have.
long FilmSolver::correct_fluxes(SheetState& s, double dt_s) {
    const float w = static_cast<float>(s.geometry.cell_m / dt_s);
    each_film_row(s, [&](int j, int begin, int end) { grid_.pressure_row(j, p_.row(j), begin, end); });
    each_film_row(s, [&](int j, int begin, int end) {
        const float* dp = p_.row(j);
        correct_row(q0x_.row(j), cx_.row(j), dp, dp + 1, s.flux_x_m2_s.row(j), w, begin, end);
        correct_row(q0y_.row(j), cy_.row(j), dp, p_.row(j + 1), s.flux_y_m2_s.row(j), w, begin, end);
    });
    if (rim_)
        for (const sheet::RimFace& f : *rim_)
            f.flux(s) = f.given_m2_s;
    const float k = static_cast<float>(dt_s / s.geometry.cell_m);
    overdrawn_.assign(s.geometry.py, 0);
    each_film_row(s, [&](int j, int begin, int end) { overdrawn_[j] += overdrawn(given_of(s, j, k), begin, end); });
    return std::accumulate(overdrawn_.begin(), overdrawn_.end(), 0L);
}

GivenRow FilmSolver::given_of(SheetState& s, int j, float k) {
    return {.h = s.film_m.row(j),
            .qx = s.flux_x_m2_s.row(j),
            .qy = s.flux_y_m2_s.row(j),
            .qy_up = s.flux_y_m2_s.row(j - 1),
            .given = given_.row(j),
            .k = k};
}

/// Only rows with an overdrawn cell, and the row above, have faces to limit.
void FilmSolver::limit_fluxes(SheetState& s, double dt_s) {
    const float k = static_cast<float>(dt_s / s.geometry.cell_m);
    const int last = s.geometry.py - 1;
    const auto near = [&](int j) { // given_ of this row will be read
        return overdrawn_[j] || (j > 0 && overdrawn_[j - 1]) || (j < last && overdrawn_[j + 1]);
    };
    each_film_row(s, [&](int j, int begin, int end) {
        if (near(j))
            given_row(given_of(s, j, k), begin, end);
    });
    each_film_row(s, [&](int j, int begin, int end) {
        const bool below = j < last && overdrawn_[j + 1];
        if (overdrawn_[j])
            limit_row(s.flux_x_m2_s.row(j), given_.row(j), given_.row(j) + 1, begin, end);
        if (overdrawn_[j] || below)
            limit_row(s.flux_y_m2_s.row(j), given_.row(j), given_.row(j + 1), begin, end);
    });
}

void FilmSolver::move_depths(SheetState& s, double dt_s, StepResult& result) {
    const float k = static_cast<float>(dt_s / s.geometry.cell_m);
    float change = 0, speed = 0;
#pragma omp parallel for schedule(static, grid::rows_in_turn(s.geometry.py)) reduction(max : change, speed) if (s.film_tiles.cells() > grid::parallel_from_cells)
    for (int j = 0; j < s.geometry.py; ++j)
        for (const grid::Span& span : s.film_tiles.spans(j)) {
            const Moved moved = move_row({.h = s.film_m.row(j),
                                          .qx = s.flux_x_m2_s.row(j),
                                          .qy = s.flux_y_m2_s.row(j),
                                          .qy_up = s.flux_y_m2_s.row(j - 1),
                                          .low = s.film_low_m.row(j),
                                          .out = s.film_before_m.row(j),
                                          .k = k},
                                         span.begin, span.end);
            grid_.depth_row(j, ahead_.row(j), span.begin, span.end);
            left_row(s.film_m.row(j), s.film_before_m.row(j), ahead_.row(j), left_.row(j), span.begin, span.end);
            change = std::max(change, moved.change);
            speed = std::max(speed, moved.speed);
        }
    if (rim_) { // the rest has stepped already
        each_film_row(s, [&](int j, int begin, int end) {
            std::swap_ranges(s.film_m.row(j) + begin, s.film_m.row(j) + end, s.film_before_m.row(j) + begin);
        });
    } else {
        std::swap(s.film_m, s.film_before_m);
    }
    result.change = change;
    result.speed_m_s = speed;
}

} // namespace tidemark::water
