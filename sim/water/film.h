/// The film: water of some tens to hundreds of micrometres on a tilted, rough sheet.
///
///   ∂h/∂t + div q = 0
///   ∂q/∂t + div(q q/h) = -h ∇p + h g sin α + 3τ/2ρ - 3ν q/h²   p = g cos α (h + b) - (γ/ρ) lap(h + b) - ψ(h)  [m²/s²]
///   q → M (-∇p + g sin α + v/dt),  M = he³ / (3ν + he²/dt),  he = depth at the face above the water that is held
///
/// One semi-implicit scheme for inertia and lubrication (Casulli 1990; Stelling & Duinmeijer 2003): friction and
/// inertia sit in the face mobility M, of the depth at the old time (at free edges and with inertia extrapolated to the
/// new one, on a slope foretold by downhill.h); gravity, capillarity and retention are implicit; the tilt is in the same
/// drive as the pressure, so a lake at rest stays at rest on any board; the drag τ of moving air is added at the old
/// time. Increments (dh, dp) are solved by multigrid; the depths are then moved by limited face fluxes, so mass is exact
/// whatever the solver left over. v is the speed that the face has after it has mixed with what flows in
/// (momentum_rows.h), as of a plug: a parabola across the depth would carry 6/5 of it, but where friction has made one,
/// little is carried.
///
/// Range   films of micrometres up to basins of a metre; the depth must be small beside the length over which it changes
///         (kh < 0.3), so slopes of the surface below about 0.3: where a pinned edge is steeper than some 17° its
///         shape is rough, its mass exact. Laminar, q/ν below some hundreds; bubbles, drops off the paper and
///         turbulence are not in it. Steps of 1 ns to 1e5 s, tilts of -90° to 90°, cells of 0.01 to 100 mm;
///         these and the parameters below are refused beyond their range (grid/within.h).
///
/// ψ(h) = ψ0 / (1 + (h/hr)²)², suction of the menisci in what the grid does not carry of the felt, for a film thinner
/// than it; the form is ours, of the kind used for soils. ψ0 = 2γ/(ρ · gap), gap 0.4 mm between felt marks (from
/// memory).
///
/// Held water: fibres and shut valleys hold `held_m`, which seeps through the felt instead of flowing over it,
/// q = k h/ν · drive, k = d² ε³ / (180 (1 - ε)²) (Kozeny 1927, Carman 1937; fibres of 20 µm, porosity 0.7 (from
/// memory): 8.5e-12 m², three hundredths of what a free film of 30 µm would carry). Where the contact line only
/// creeps (contact_line.h) no more than valley_share of a free film passes.
#pragma once
#include "sheet/sheet_state.h"

namespace tidemark::water {

struct FilmParams {
    double nu_m2_s = 1.1e-6;  ///< 1e-13 ... 1e-2; clear water with a trace of gum at 20 °C; a mix multiplies it (nu_factor)
    double gamma_N_m = 0.055; ///< 0 ... 0.5; a middle wash (from memory); clear water 0.0727
    double gravity_m_s2 = 9.80665;         ///< 0 ... 100
    double held_m = 30e-6;                 ///< 0 ... 1e-3
    double felt_permeability_m2 = 8.5e-12; ///< k; 0 ... 1e-9
    double valley_share = 1e-3;            ///< 0 ... 1; from memory
    double retention_m2_s2 = 0.27;         ///< ψ0; 0 ... 100
    double retention_depth_m = 15e-6;      ///< hr; 1e-7 ... 1e-3
    double theta_advancing_rad = 1.2217;   ///< 0 ... π
    double theta_receding_rad = 0.1745;    ///< 0 ... theta_advancing_rad
    bool inertia = true; ///< on a level board, where a step is not much longer than h²/3ν
    bool inertia_on_tilt = false; ///< for short steps only: long ones over deep beads are then solved worse
    bool look_ahead = true;       ///< mobility of the depth at the end of the step, at free edges and on slopes
    bool contact_line = true;     ///< false: every cell of the sheet is open (checks of the film alone)
    double air_stress_x_Pa = 0, air_stress_y_Pa = 0; ///< drag of air that blows along the film; -10 ... 10
    double tolerance_m = 2e-6;    ///< largest residual of a solve, as depth; 0 ... 1
    double refused_m = 3e-6;      ///< a solve that stands still above this is refused; 0 ... 1
    int cycles_max = 30;          ///< 0 ... 1000

    bool blown() const { return air_stress_x_Pa != 0 || air_stress_y_Pa != 0; }
    /// For a paper: its held water, retention and contact angles.
    static FilmParams of(const materials::Paper&);
    double capillary_length_m() const; ///< infinite without gravity
    void check() const;                ///< throws when one is out of range
};

} // namespace tidemark::water
