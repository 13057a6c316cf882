/// Where film may go: the way through each cell.
///
/// `way` is the deepest film that may pass into or through a cell: 0 closed, a few micrometres where the felt wicks,
/// 1 m where water runs freely.
///
///   painted or flooded          open
///   dry sized paper             closed, until the film beside it (within 3 l_c) stands deeper than 2 l_c sin(θ/2), the
///                               largest depth of a puddle (de Gennes, Brochard-Wyart & Quéré 2004), or, on a tilt,
///                               until the bead's weight beats the hysteresis: ρ g A sin α > γ (cos θr - cos θ)
///                               (Furmidge 1962), A the section of film standing up the slope
///   damp paper                  θ falls with the free water in the fibres, θ = θa (1 - s/s_open); below θc the felt wicks
///                               a film as deep as its valleys, rising to the held depth at s_open: cos θc = (1 - φ)/(r - φ)
///                               (Bico, Thiele & Quéré 2002, Colloids Surf. A 206, 41-46), for half-buried fibres over half
///                               of the surface, r = 1.29, of which φ = 0.3 is tops (from memory): 45°
///   fibres nearly full          open
///
/// Range   angles of 0 to π (film.h checks them). The largest depth is that of a wide puddle on a level sheet at rest;
///         Furmidge's balance is that of a drop about to slide, on boards that are not level. Both for water that moves
///         slowly, γ against µ u: below about 10 cm/s.
///
/// s: share of the front half's room for free water that is taken. s_open 0.85 is an orientation value from
/// one-dimensional experiments of ours; no measurement of sized paper was found.
/// A wetted cell that has lost its film is judged by its fibres again.
#pragma once
#include "sheet/sheet_state.h"
#include "water/film.h"

namespace tidemark::water {

constexpr double saturation_open = 0.85;
/// Saturation, 0 ... 0.85, from which the felt wicks: where θ has fallen to θc. 0 on paper that is not sized.
double saturation_creep(double theta_advancing_rad);

/// Share of the front half's room for free water that is taken, 0 ... 1.
double free_saturation(const materials::Paper&, double front_kg_m2);

/// Writes `way` over the film tiles, and `surface` where film has come or gone. Returns whether every edge of the film
/// is pinned (no dry cell beside film is open).
bool set_ways(sheet::SheetState&, const FilmParams&, sheet::Field<float>& way);

} // namespace tidemark::water
