#include "water/flow.h"

#include "grid/rows.h"
#include "water/contact_line.h"
#include "water/faces.h"

#include <cmath>
#include <numeric>
#include <vector>

namespace tidemark::water {
namespace {

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
    for (auto* f : {&p_, &ahead_, &way_, &q0x_, &q0y_, &given_})
        f->resize(s.geometry.px, s.geometry.py);
    nu_factor_.resize(s.geometry.px, s.geometry.py, 1.0f);
}

void FilmSolver::wake(SheetState& s, const FilmParams& p) {
    if (awake_.same_as(s.film_tiles))
        return update_ways(s, p);
    awake_ = s.film_tiles;
    grid_.set_spans(s.film_tiles);
    // A step writes awake cells only and then swaps the two fields: what sleeps must be the same in both.
    s.film_before_m = s.film_m;
    warm_ = false;
    // What sleeps is closed and still, so that no water can cross into a tile that nobody updates.
    for (auto* f : {&q0x_, &q0y_, &way_, &p_, &ahead_})
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
    update_ways(s, p);
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

void FilmSolver::prepare(const SheetState& s, const FilmParams& p, double dt_s, bool tilted) {
    Level& fine = grid_.fine();
    const float g = static_cast<float>(p.gravity_m_s2 * std::cos(s.tilt_rad)), G = static_cast<float>(mean_G(s, p));
    const double pull = p.gravity_m_s2 * std::sin(s.tilt_rad);
    const float dx = static_cast<float>(s.geometry.cell_m), dt = static_cast<float>(dt_s);
    each_film_row(s, [&](int j, int begin, int end) {
        pressure_row({.h = s.film_m.row(j),
                      .h_up = s.film_m.row(j - 1),
                      .h_down = s.film_m.row(j + 1),
                      .b = s.relief_m.row(j),
                      .b_up = s.relief_m.row(j - 1),
                      .b_down = s.relief_m.row(j + 1),
                      .p = p_.row(j),
                      .diagonal = fine.diagonal.row(j),
                      .g = g,
                      .G = G,
                      .suction = static_cast<float>(p.retention_m2_s2),
                      .inverse_depth = static_cast<float>(1 / p.retention_depth_m)},
                     begin, end);
    });
    // An advancing front is late if its faces are as deep as they were before it came. On a tilt the upwind depth is
    // implicit already; between pinned edges it makes no difference.
    const bool look_ahead = p.look_ahead && follows_ && !tilted && !pinned_;
    const Field<float>& depth = look_ahead ? depth_ahead(s, dt_s) : s.film_m;
    // A deep pool equilibrates within the step however large M is; beyond this, float noise of the depth would come
    // back amplified every step.
    const double cap_c = 3.5e4 / (g + 4 * G);
    const float cap = static_cast<float>(cap_c * s.geometry.cell_m * s.geometry.cell_m / dt_s);
    const float slope_x = tilted ? static_cast<float>(pull * std::cos(s.tilt_direction_rad)) : 0.0f;
    const float slope_y = tilted ? static_cast<float>(pull * std::sin(s.tilt_direction_rad)) : 0.0f;
    const bool inertia = p.inertia && (!tilted || p.inertia_on_tilt);
    const auto shared = [&](float slope) {
        FaceRow r{};
        r.slope = std::abs(slope) < 1e-9f ? 0.0f : slope;
        r.nu3 = static_cast<float>(3 * p.nu_m2_s), r.dx = dx, r.dt = dt, r.held = static_cast<float>(p.held_m);
        r.felt_permeability = static_cast<float>(p.felt_permeability_m2);
        r.valley_share = static_cast<float>(p.valley_share), r.mobility_cap = cap;
        return r;
    };
    each_film_row(s, [&](int j, int begin, int end) {
        FaceRow x = shared(slope_x);
        x.h_a = depth.row(j), x.h_b = x.h_a + 1, x.bed_a = s.relief_m.row(j), x.bed_b = x.bed_a + 1;
        x.p_a = p_.row(j), x.p_b = x.p_a + 1, x.way_a = way_.row(j), x.way_b = x.way_a + 1;
        x.factor_a = nu_factor_.row(j), x.factor_b = x.factor_a + 1, x.q_old = s.flux_x_m2_s.row(j);
        x.q = q0x_.row(j), x.c = fine.cx.row(j), x.tilt = fine.ax.row(j);
        face_row(x, begin, end, inertia);
        FaceRow y = shared(slope_y);
        y.h_a = depth.row(j), y.h_b = depth.row(j + 1), y.bed_a = s.relief_m.row(j), y.bed_b = s.relief_m.row(j + 1);
        y.p_a = p_.row(j), y.p_b = p_.row(j + 1), y.way_a = way_.row(j), y.way_b = way_.row(j + 1);
        y.factor_a = nu_factor_.row(j), y.factor_b = nu_factor_.row(j + 1), y.q_old = s.flux_y_m2_s.row(j);
        y.q = q0y_.row(j), y.c = fine.cy.row(j), y.tilt = fine.ay.row(j);
        face_row(y, begin, end, inertia);
        if (tilted && x.slope == 0)
            std::fill(x.tilt + begin, x.tilt + end, 0.0f);
        if (tilted && y.slope == 0)
            std::fill(y.tilt + begin, y.tilt + end, 0.0f);
    });
    const float k = dt / dx;
    each_film_row(s, [&](int j, int begin, int end) {
        const float *qx = q0x_.row(j), *qy = q0y_.row(j), *up = q0y_.row(j - 1);
        float* r1 = fine.r1.row(j);
#pragma omp simd
        for (int i = begin; i < end; ++i)
            r1[i] = -k * ((qx[i] - qx[i - 1]) + (qy[i] - up[i]));
    });
    grid_.coarsen(tilted);
}

StepResult FilmSolver::advance(SheetState& s, const FilmParams& p, double dt_s) {
    StepResult result;
    const bool tilted = s.tilt_rad != 0;
    prepare(s, p, dt_s, tilted);
    const double ratio = last_dt_s_ > 0 ? dt_s / last_dt_s_ : 0;
    const bool warm = warm_ && ratio > 0.6 && ratio < 1.6;
    if (warm) {
        Level& fine = grid_.fine();
        const float f = static_cast<float>(ratio);
        each_film_row(s, [&](int j, int begin, int end) {
            float *de = fine.de.row(j), *dp = fine.dp.row(j);
#pragma omp simd
            for (int i = begin; i < end; ++i)
                de[i] *= f, dp[i] *= f;
        });
    }
    result.residual_m = grid_.solve(p.tolerance_m, p.cycles_max, tilted, warm, result.cycles);
    warm_ = result.residual_m <= p.refused_m;
    last_dt_s_ = dt_s;
    if (!warm_)
        return result; // an unconverged solve must not move water: it would explode within a few steps
    const long limited = correct_fluxes(s, dt_s, tilted);
    if (limited > 0)
        limit_fluxes(s, dt_s);
    result.limited_share =
        static_cast<double>(limited) / std::max<double>(static_cast<double>(s.film_tiles.cells()), 1);
    move_depths(s, dt_s, result);
    follows_ = result.accepted = true;
    return result;
}

/// Fluxes after the solve. Returns how many cells would give more than they have.
long FilmSolver::correct_fluxes(SheetState& s, double dt_s, bool tilted) {
    Level& fine = grid_.fine();
    const float w = static_cast<float>(s.geometry.cell_m / dt_s);
    each_film_row(s, [&](int j, int begin, int end) {
        correct_row({.q0 = q0x_.row(j),
                     .c = fine.cx.row(j),
                     .dp_a = fine.dp.row(j),
                     .dp_b = fine.dp.row(j) + 1,
                     .de_a = fine.de.row(j),
                     .de_b = fine.de.row(j) + 1,
                     .tilt = fine.ax.row(j),
                     .q = s.flux_x_m2_s.row(j),
                     .w = w},
                    begin, end, tilted);
        correct_row({.q0 = q0y_.row(j),
                     .c = fine.cy.row(j),
                     .dp_a = fine.dp.row(j),
                     .dp_b = fine.dp.row(j + 1),
                     .de_a = fine.de.row(j),
                     .de_b = fine.de.row(j + 1),
                     .tilt = fine.ay.row(j),
                     .q = s.flux_y_m2_s.row(j),
                     .w = w},
                    begin, end, tilted);
    });
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
#pragma omp parallel for schedule(static) reduction(max : change, speed) if (s.film_tiles.cells() > grid::parallel_from_cells)
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
            change = std::max(change, moved.change);
            speed = std::max(speed, moved.speed);
        }
    std::swap(s.film_m, s.film_before_m);
    result.change = change;
    result.speed_m_s = speed;
}

} // namespace tidemark::water
