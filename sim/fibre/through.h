/// Water passes between the two halves of the sheet.
///
///   d(front - back)/dt = -8 D/c² (front - back),   D through the sheet, c its caliper
///
/// Two slabs of thickness c/2 with their middles c/2 apart: the flux is D (front - back)/(c/2) / (c/2), and it takes
/// from one what it gives to the other. The step is the exact exponential. What the back half holds beyond its
/// capacity runs off.
///
/// Range   any dt. Two halves know the slowest of the ways in which a profile evens out (8 for π², 19 % too slow, Crank
///         1975), not the sharp front of the first minutes, up to about c²/30 D.
#pragma once
#include "materials/paper.h"

namespace tidemark::fibre {

double exchange_rate_1_s(const materials::Paper&);

/// One stretch of a row: `share` of half the difference crosses, (1 - exp(-rate dt))/2. `run_off` in kg/m².
void through_stretch(int n, double share, double capacity_kg_m2, double* front, double* back, double* run_off);

} // namespace tidemark::fibre
