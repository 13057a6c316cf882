/// Painter's units to SI and back. Exact factors only; everything inside the program is SI.
#pragma once

namespace tidemark::grid {

constexpr double m_from_mm(double mm) { return mm * 1e-3; }
constexpr double mm_from_m(double m) { return m * 1e3; }
constexpr double m_from_um(double um) { return um * 1e-6; }
constexpr double um_from_m(double m) { return m * 1e6; }
constexpr double s_from_min(double min) { return min * 60.0; }
constexpr double min_from_s(double s) { return s / 60.0; }
constexpr double kg_m2_from_g_m2(double g_m2) { return g_m2 * 1e-3; }
constexpr double g_m2_from_kg_m2(double kg_m2) { return kg_m2 * 1e3; }
constexpr double m3_from_mL(double mL) { return mL * 1e-6; }
constexpr double mL_from_m3(double m3) { return m3 * 1e6; }
constexpr double m2_s_from_cm2_s(double cm2_s) { return cm2_s * 1e-4; }
constexpr double K_from_C(double C) { return C + 273.15; }
constexpr double rad_from_deg(double deg) { return deg * 0.017453292519943295; }
constexpr double kg_m2_s_from_g_m2_h(double g_m2_h) { return g_m2_h * 1e-3 / 3600.0; }
constexpr double g_m2_h_from_kg_m2_s(double kg_m2_s) { return kg_m2_s * 3600.0 * 1e3; }

/// Density of the water in the film and the fibres, one value throughout, so that a millimetre of film is a
/// kilogram a square metre (at 20 °C it is 998.2: 0.2 % less; the ledger counts in this unit).
constexpr double water_kg_m3 = 1000.0;

} // namespace tidemark::grid
