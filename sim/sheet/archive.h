/// What is kept of a sheet and its record (grid/archive.h): all that a plan doesn't say.
///
/// Not kept, because the same plan makes the same: geometry, paper, board, pigments, relief. Not kept, because it is
/// remade before it is read: film_before_m (FilmSolver::advance writes what is awake, and what sleeps is as film_m), and
/// the tiles of a pigment, which are found anew.
/// So a sheet is read into one that was made for the same plan and cell. Every member stands in the bindings below: one
/// that is added does not compile until it is decided here whether it is kept.
#pragma once
#include <concepts>

#include "sheet/record.h"
#include "sheet/sheet_state.h"

namespace tidemark::sheet {

template <class Self, class T> concept Either = std::same_as<std::remove_const_t<Self>, T>;

template <class A, Either<PigmentState> Self> void archive_of(A& a, Self& self) {
    auto& [pigment, afloat_lower, afloat_upper, loose, bound, inside, tiles] = self;
    a(afloat_lower, afloat_upper, loose, bound, inside);
}

template <class A, Either<StageSample> Self> void archive_of(A& a, Self& self) {
    auto& [time_s, area, share] = self;
    a(time_s, area, share);
}

template <class A, Either<SheetState> Self> void archive_of(A& a, Self& self) {
    auto& [geometry, paper, room, still_humidity, board, tilt_rad, tilt_direction_rad, time_s, relief_m,
           relief_subgrid_rms_m, film_m, film_low_m, film_before_m, flux_x_m2_s, flux_y_m2_s, front_kg_m2, back_kg_m2,
           drawn_m, surface, gum_lower, gum_upper, gum_bound, pigments, passes, pass_count, board_water_kg, film_tiles,
           damp_tiles] = self;
    a(room, still_humidity, tilt_rad, tilt_direction_rad, time_s, film_m, film_low_m, flux_x_m2_s, flux_y_m2_s,
      front_kg_m2, back_kg_m2, drawn_m, surface, gum_lower, gum_upper, gum_bound, passes, pass_count, board_water_kg,
      film_tiles, damp_tiles);
    for (auto& pigment : pigments) a(pigment);
    if constexpr (A::reads) {
        const int px = geometry.px, py = geometry.py; // not every compiler lets a lambda have a binding
        const auto fits = [&a, px, py](const auto& field) { a.require(field.nx() == px && field.ny() == py); };
        for (const auto* f : {&film_m, &film_low_m, &flux_x_m2_s, &flux_y_m2_s, &drawn_m, &gum_lower, &gum_upper, &gum_bound})
            fits(*f);
        fits(front_kg_m2), fits(back_kg_m2), fits(surface), fits(pass_count), fits(film_tiles), fits(damp_tiles);
        for (const auto& p : pigments)
            for (const auto* f : {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside}) fits(*f);
        for (const auto& pass : passes) {
            a.require(pass.bound.size() == pigments.size());
            for (const auto& f : pass.bound) fits(f);
        }
        for (int j = 0; j < geometry.py; ++j)
            for (int i = 0; i < geometry.px; ++i) a.require(pass_count(i, j) <= passes.size());
        film_before_m = film_m;
        self.track_pigment();
    }
}

} // namespace tidemark::sheet
