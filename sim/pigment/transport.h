/// Pigment and gum carried along by the film.
///
///   ∂m/∂t + ∇·(q c) = 0,  c = m / depth,  in two halves of the film, each h/2 deep:
///   lower half 0.3125 q (0.625 of the mean speed), upper half 0.6875 q (1.375): integrals of the half-parabola
///
/// A grain hardly diffuses, so the film's shear stretches a wash; two speeds carry most of it. Where the film
/// converges the upper half gains 0.1875 -∇·q more than its share of the depth: that water sinks into the lower half
/// with what it carries; where the film diverges it rises. Water that rises does so before the cell gives, water that
/// sinks does after, so that a cell never gives more than it has and an even concentration stays even.
///
/// Flux form on the limited fluxes of the last film step, upwind with van Leer's (1977) monotonized central slope
/// (his harmonic one, 1974, costs a division and flattens a cone by 4 % more). The slope is shortened by the share of
/// the half's water that leaves the cell through all faces, which keeps concentrations between those of the
/// neighbours in two dimensions too (unsplit, without corner terms: in one dimension the share through that face
/// would do). Next to a dry cell the slope is 0. Sub-steps n = ceil(CFL/0.9), at most 2, the depth stepped along.
/// Cells that more water runs through in a sub-step than they hold give at the concentration that their inflow leaves
/// in them (through.h): stable at any CFL, but first order, so that the head of a wash running down a board is smeared
/// over some cells.
///
/// Range   any flux; dt 0 to 1e6 s, else refused (grid/within.h). The two speeds are those of a laminar film without
///         slip and with a free surface: a wind at the surface, or Re q/ν of some hundreds, would change them.
/// Reads   film_before_m, flux_x_m2_s, flux_y_m2_s, film_tiles. Faces of a sleeping tile count as closed.
/// Writes  afloat_lower, afloat_upper of each pigment, gum_lower_kg_m2, gum_upper_kg_m2 of awake tiles.
/// Keeps   every mass exactly but for rounding (below 1e-6 of it in 1000 steps), never negative.
#pragma once
#include "pigment/workspace.h"
#include "sheet/sheet_state.h"

namespace tidemark::pigment {

constexpr float lower_share = 0.3125f, upper_share = 0.6875f; ///< of the film's flux
constexpr float half_excess = 0.1875f;                        ///< upper_share - 1/2

struct TransportMoved {
    int substeps = 0;     ///< 0 when there was no film
    double worst_cfl = 0; ///< largest share of an upper half's water that leaves its cell in dt
};

/// Call once after each film step of dt_s, before anything else changes film_m.
TransportMoved advect(sheet::SheetState&, PigmentWorkspace&, double dt_s);

} // namespace tidemark::pigment
