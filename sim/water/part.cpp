// A part of the sheet, stepped alone between fluxes that are given.
#include "water/contact_line.h"
#include "water/flow.h"

#include <algorithm>
#include <cmath>

namespace tidemark::water {
namespace {

constexpr int size = grid::TileSet::size;

template <class F> void each_tile(const grid::TileSet& tiles, F&& f) {
    for (int tj = 0; tj < tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < tiles.tiles_x(); ++ti)
            if (tiles.awake(ti, tj))
                f(ti, tj);
}

void fill_tile(Field<float>& f, int ti, int tj, float value) {
    for (int j = tj * size; j < (tj + 1) * size; ++j)
        std::fill_n(f.row(j) + ti * size, size, value);
}

/// A tile and the cells around it.
void copy_tile(const Field<float>& from, Field<float>& to, int ti, int tj) {
    for (int j = tj * size - 1; j <= (tj + 1) * size; ++j)
        std::copy_n(from.row(j) + ti * size - 1, size + 2, to.row(j) + ti * size - 1);
}

} // namespace

void FilmSolver::take_part(const SheetState& s, const FilmSolver& whole, std::vector<sheet::RimFace>& rim) {
    each_tile(awake_, [&](int ti, int tj) { // what was part the last time
        if (s.film_tiles.awake(ti, tj))
            return;
        for (auto* f : {&q0x_, &q0y_, &cx_, &cy_, &way_, &p_, &ahead_, &speed_x_, &speed_y_, &depth_x_, &depth_y_})
            fill_tile(*f, ti, tj, 0.0f);
        grid_.still(ti, tj);
    });
    awake_ = s.film_tiles;
    grid_.set_spans(awake_, false);
    each_tile(awake_, [&](int ti, int tj) {
        copy_tile(whole.way_, way_, ti, tj);
        copy_tile(whole.nu_factor_, nu_factor_, ti, tj);
        // Faces on its left and upper side belong to cells outside, which may have been a rim before and sleep now.
        for (int j = tj * size; j < (tj + 1) * size; ++j)
            q0x_(ti * size - 1, j) = cx_(ti * size - 1, j) = 0;
        for (auto* f : {&q0y_, &cy_})
            std::fill_n(f->row(tj * size - 1) + ti * size, size, 0.0f);
    });
    forget_in(awake_);
    rim_ = &rim;
    for (const sheet::RimFace& f : rim)
        given_(f.outer_i(), f.outer_j()) = 1; // what comes in is not limited again
    warm_ = follows_ = has_momentum_ = false;
    pinned_ = whole.pinned_;
    last_dt_s_ = 0;
}

void FilmSolver::update_ways_in_part(SheetState& s, const FilmParams& p) { pinned_ = set_ways(s, p, way_) && pinned_; }

void FilmSolver::forget_in(const grid::TileSet& tiles) {
    each_tile(tiles, [&](int ti, int tj) {
        fill_tile(left_, ti, tj, 0.0f);
        fill_tile(answered_, ti, tj, 0.0f);
    });
}

void FilmSolver::give_rim() {
    for (const sheet::RimFace& f : *rim_) {
        (f.across ? q0x_ : q0y_)(f.i, f.j) = f.given_m2_s;
        (f.across ? cx_ : cy_)(f.i, f.j) = 0;
    }
}

/// The limiters scale the faces right of a cell and below it, and those along the slope on both sides.
void FilmSolver::limit_rim(SheetState& s, Slope slope) {
    const bool tilted = slope.x != 0 || slope.y != 0, down = std::abs(slope.y) >= std::abs(slope.x);
    for (const sheet::RimFace& f : *rim_) {
        if (!f.outer_first || f.out(f.given_m2_s) <= 0 || (tilted && f.across != down))
            continue;
        if (tilted || overdrawn_[f.inner_j()])
            f.flux(s) *= given_(f.inner_i(), f.inner_j());
    }
}

void FilmSolver::note_rim(SheetState& s, double dt_s) {
    const double k = static_cast<float>(dt_s / s.geometry.cell_m); // as the depths are moved by (update_rows.cpp)
    for (sheet::RimFace& f : *rim_) {
        f.passing_m2_s = f.flux(s);
        f.passed_m += k * f.passing_m2_s;
    }
}

} // namespace tidemark::water
