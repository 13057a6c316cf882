/// The arithmetic of one stretch of a row; pointers are to its first cell. Losses are per area, in kg/m².
#pragma once
#include "grid/rows.h"

#include <cstdint>

namespace tidemark::air {

constexpr int stretch_cells = 128;

/// What a row kernel needs of a DryingCurve, with the step.
struct CurveStep {
    double equilibrium_kg_m2;
    float saturated_kg_m2, wet_kg_m2_s, nodes_per_kg_m2;
    const float* k_1_s;
    float dt_s;
};

/// Film gives `wet · factor · dt`; `left_s` is the time that remains for the fibres once it is gone.
void film_stretch(int n,
                  const CurveStep&,
                  const float* factor,
                  float* film,
                  float* film_low,
                  double* front,
                  float* left_s,
                  double* loss);
/// Fibres move towards equilibrium for `left_s` seconds at `factor` times the curve.
void fibre_stretch(int n, const CurveStep&, const float* factor, const float* left_s, double* half, double* loss);

} // namespace tidemark::air
