// Grains that stick to what they touch: diffusion to an absorbing wall (Crank 1975), and the same while water is drawn
// through the wall as √t, which has a closed form too: with c = f(x/√t) the flux at the wall is
//   √(D/πt) / (exp(σ²) erfc σ),   σ = S / 2√D,
// of which S/2√t comes with the water; the rest is what fibre catches besides.
#include "pigment/advance.h"
#include "support/pigment_scene.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <numbers>

using namespace tidemark;
using namespace tidemark::pigment_scene;
using published::Check;

namespace {

constexpr double d_m = 0.1e-6, film_m = 4e-3, after_s = 400;

double diffusivity(const sheet::SheetState& s) { return pigment::diffusivity_m2_s(d_m, s.room.temperature_K); }

/// Depth of the film whose pigment is caught in `after_s`, while water is drawn in with this sorptivity.
double stripped_m(double sorptivity_m_s05, double dt_s) {
    auto s = flooded(32, 32, static_cast<float>(film_m), {grain(998.3, d_m, 1.0)});
    auto& p = s.pigments[0];
    p.afloat_lower.fill(1e-3f), p.afloat_upper.fill(1e-3f); // 0.5 kg/m³
    pigment::PigmentWorkspace w;
    double drawn_m = 0;
    for (double t = dt_s; t < after_s + 0.5 * dt_s; t += dt_s) {
        const double now_m = sorptivity_m_s05 * std::sqrt(t);
        s.film_m.fill(static_cast<float>(film_m - now_m));
        s.drawn_m.fill(static_cast<float>(now_m - drawn_m));
        drawn_m = now_m;
        pigment::advance(s, w, dt_s);
    }
    return p.bound(5, 5) / 0.5;
}

} // namespace

TEST_CASE("crank 1975: fibre catches grains as the root of time", "[published][pigment]") {
    const auto s = flooded(32, 32, static_cast<float>(film_m), {});
    const double exact = 2 * std::sqrt(diffusivity(s) * after_s / std::numbers::pi);
    for (const double dt_s : {0.25, 2.0})
        Check{"grains caught by fibre in still water, as depth of film", "Crank 1975", "µm"}.relative(
            1e6 * exact, 1e6 * stripped_m(0, dt_s), 0.02);
}

TEST_CASE("diffusion with suction: uptake leaves less for fibre to catch", "[published][pigment]") {
    const auto s = flooded(32, 32, static_cast<float>(film_m), {});
    const double D = diffusivity(s);
    for (const double sorptivity : {1e-6, 4.5e-6, 9e-6}) {
        const double sigma = 0.5 * sorptivity / std::sqrt(D);
        const double besides = std::exp(-sigma * sigma) / std::erfc(sigma) - sigma * std::sqrt(std::numbers::pi);
        CAPTURE(sorptivity, sigma);
        Check{"grains caught by fibre while paper drinks, as depth of film", "diffusion with suction, closed form", "µm"}
            .relative(1e6 * besides * 2 * std::sqrt(D * after_s / std::numbers::pi), 1e6 * stripped_m(sorptivity, 0.25),
                      0.2);
    }
}
