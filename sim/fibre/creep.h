/// Water creeps along the sheet, in each half by itself, from wetter fibres to drier ones.
///
///   ∂w/∂t = ∇·(D ∇w),   D = D₀ Θ²,   Θ = (w - equilibrium)/(capacity - equilibrium)
///
/// Fibres at the room's equilibrium don't conduct, so a front stays a front. D₀ = 2.245 D_lateral: with it a wet edge
/// gives its dry neighbour as much as with an even D_lateral, so that the paper's number keeps its meaning
/// ((1.128379/0.753052)², sorptivities for exponents 0 and 2, Philip 1957). The exponent is ours, from no source.
///
/// Written with the potential P = Θ³/3 (Kirchhoff's transform): the flux through a face is D₀ (capacity -
/// equilibrium) (P_left - P_right)/cell, one number for both cells. Explicit where a step allows it, else stabilised
/// by Legendre polynomials (RKL1: Meyer, Balsara & Aslam 2014), s stages for about s²/2 explicit steps; mass is exact
/// either way. Nothing crosses the border of the sheet or of the awake tiles (SheetState::wake keeps a margin).
///
/// Range   Θ 0 to 1: drier counts as 0, and beyond capacity D stays D₀. dt 0 to 1e6 s, D_lateral 0 to 1e-6 m²/s, cells
///         of 0.01 to 100 mm; else refused (grid/within.h).
#pragma once
#include "grid/field.h"
#include "sheet/sheet_state.h"

namespace tidemark::fibre {

struct CreepWorkspace {
    grid::Field<float> potential; ///< P of the half being advanced, a bare number
    grid::Field<double> before;   ///< moisture one stage back, kg/m²; only for steps longer than creep_step_s
};

double creep_diffusivity_m2_s(const materials::Paper&); ///< D₀
/// Largest dt that one explicit step takes; 1e30 on paper that doesn't creep.
double creep_step_s(const sheet::SheetState&);
/// Stages for a step of dt_s: 1, or RKL1's odd number.
int creep_stages(double dt_s, double explicit_s);

void creep(sheet::SheetState&, CreepWorkspace&, grid::Field<double>& half_kg_m2, double dt_s);

} // namespace tidemark::fibre
