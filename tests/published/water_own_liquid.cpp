// The liquid that a rehearsal takes when nobody says otherwise lies where water with a trace of gum does: viscosity
// between clear water's at 20 °C (1.0034 mm²/s, IAPWS 2008) and a fifth above it (the upper end from memory); surface
// tension of washes 40 to 65 mN/m (from memory), below clear water's 72.74 (IAPWS R1-76).
#include "grid/units.h"
#include "support/published.h"
#include "water/film.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using published::Check;

TEST_CASE("the film's own liquid is water with a trace of gum", "[published][water]") {
    const water::FilmParams p;
    Check{"viscosity of the film's liquid, clear water to a trace of gum", "IAPWS 2008", "mm²/s"}.between(
        1.0034, 1.2, 1e6 * p.nu_m2_s);
    Check{"surface tension of the film's liquid", "below IAPWS R1-76, range from memory", "mN/m"}.between(
        40, 65, 1e3 * p.gamma_N_m);
    Check{"gravity on the film", "standard gravity, CGPM 1901", "m/s²"}.near(9.80665, p.gravity_m_s2, 1e-5);
    Check{"density of the water that is weighed, at 20 °C", "Kell 1975", "kg/m³"}.relative(998.2, grid::water_kg_m3,
                                                                                           0.002);
}
