/// Settled pigment lifted again, while there is film over it.
/// Range: shear up to some τc; far above it a bed erodes in lumps, which this leaves out. Grains as grain.h has them.
///
///   flow    shear at the paper τ = 3 µ |q| / h² (half-parabola); above τc a share of `loose` goes to the lower half:
///           d loose/dt = -rate (τ/τc - 1) loose, rate 0.05 1/s (form: Partheniades 1965; rate from memory)
///   τc      = 0.02 Pa + 0.1 (ρp - ρ) s g d of the floc, s its solid share: what the fluff on fresh mud resists, some
///           hundredths for salty mud, less for grains that gum keeps apart, plus a Shields number of 0.1 (orders of
///           magnitude, from memory). A quiet film shears with 1e-4 ... 1e-3 Pa, water that runs into a moist wash with
///           0.03, a wash running down a tilted board with 0.1, a landing stroke with 1.
///   brush   stir_cell: a share `strength` of loose is spread through the film, and the two halves are mixed by it
#pragma once
#include "pigment/grain.h"
#include "sheet/sheet_state.h"

namespace tidemark::pigment {

constexpr double cohesion_Pa = 0.02, shields_number = 0.1; ///< from memory
constexpr float stir_rate_1_s = 0.05f;                     ///< from memory

double stir_threshold_Pa(const materials::Pigment&, double temperature_K);

/// A brush passes over cell (i, j). strength 0 ... 1 (clamped). Does nothing where there is no film.
void stir_cell(sheet::SheetState&, int i, int j, double strength);

} // namespace tidemark::pigment
