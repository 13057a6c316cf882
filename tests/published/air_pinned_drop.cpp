/// A small pinned mark of water in still air. A thin drop of radius R loses π R D Δc f(θ): f(0) = 4/π (Weber 1873;
/// Popov 2005), f = 1.30 + 0.27 θ² (Hu & Larson 2002), and its flux grows towards the edge as (R - r)^-λ, λ = 1/2 for
/// a thin one (Deegan et al. 1997). The model knows the mark's outline and not its height: θ = 0 is what it claims.
#include "air/moist_air.h"
#include "air/sideways.h"
#include "support/half_wet.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidemark;
using published::Check;

namespace {

constexpr double pi = std::numbers::pi;

struct Disc {
    double f;      ///< total rate over π R D Δc
    double centre; ///< flux in the middle over the mean
    double rim;    ///< share of the rate in the outer tenth of the radius
};

/// A wet disc of R under a still layer d; E of an endless wash is D Δc/d, so the rate is that by the factors' sum.
Disc disc(double R, double d, double cell) {
    auto sheet = sheet::SheetState::make(0.032, 0.032, cell, {}, {}, sheet::BoardKind::sealed, {}, 1);
    const auto& g = sheet.geometry;
    const auto radius = [&](int i, int j) { return cell * std::hypot(i + 0.5 - 0.5 * g.nx, j + 0.5 - 0.5 * g.ny); };
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (radius(i, j) < R)
                sheet.film_m(i, j) = 1e-4f;
    sheet.wake();
    air::SidewaysVapour vapour;
    air::prepare(vapour, g, d);
    air::update(vapour, sheet, 1.0);
    double sum = 0, outer = 0;
    int cells = 0;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (vapour.wet(i, j)) {
                sum += vapour.factor(i, j), ++cells;
                if (radius(i, j) > 0.9 * R)
                    outer += vapour.factor(i, j);
            }
    const double area = cells * cell * cell, mean = sum / cells;
    return {mean / d * area / (pi * std::sqrt(area / pi)), vapour.factor(g.nx / 2, g.ny / 2) / mean, outer / sum};
}

} // namespace

// The still layer of a studio, 10 mm, ends the drop's own air: by its images the exact rate is 1/(1 - (2 ln 2/π) R/d)
// times as high. 8 %: the model's quarter power keeps the slope of the limit, not its constant. Below a tenth of the
// layer it claims nothing: its excess goes as R² ln(d/R) there, and the rate falls off slowly, 10 % too low at a
// twentieth.
TEST_CASE("a pinned drop evaporates as the thin drops of Hu and Larson and of Popov", "[published][air]") {
    const double d = 10e-3;
    for (const double R : {1e-3, 2e-3, 4e-3}) {
        CAPTURE(R);
        Check{"rate of a thin pinned drop of 1 to 4 mm, over π R D Δc", "Popov 2005, Weber 1873, with images"}
            .relative(4 / pi / (1 - 2 * std::log(2.0) / pi * R / d), disc(R, d, R / 16).f, 0.08);
    }
    const double R = 1e-3, f = disc(R, d, R / 16).f;
    Check{"rate of a thin pinned drop of 1 mm, over π R D Δc", "Hu & Larson 2002 for θ = 0"}.relative(1.30, f, 0.08);
    Check{"rate of a thin drop of 0.5 mm, smaller than the model claims", "Popov 2005, Weber 1873, with images"}
        .relative(4 / pi / (1 - 2 * std::log(2.0) / pi * 0.05), disc(0.05 * d, d, R / 32).f, 0.12);
    // 20 °C, 50 %, contact angle 20 degrees, whose height adds 6 % to a thin drop's rate: not in the model.
    const double room_K = 293.15,
                 thinner_air = air::vapour_density_kg_m3(room_K, 1) - air::vapour_density_kg_m3(room_K, 0.5);
    Check{"rate of a pinned drop of 1 mm and 20 degrees, 20 °C, 50 %", "Popov 2005", "µg/s"}.relative(
        0.890, 1e9 * pi * R * air::vapour_diffusivity_m2_s(room_K) * thinner_air * f, 0.10);
}

TEST_CASE("the flux of a wet edge diverges with the root of the distance", "[published][air]") {
    const double d = 12e-3, cell = 0.125e-3;
    const scene::HalfWet half(0.064, 0.032, cell, d);
    const auto within = [&](int cells) { // what leaves between the edge and there
        double sum = 0;
        for (int k = 0; k < cells; ++k)
            sum += half.factor(k);
        return sum;
    };
    const double lambda = 1 - std::log(within(8) / within(1)) / std::log(8.0);
    // 0.01: at 8 cells, a twelfth of the layer, the root law has begun to bend.
    Check{"exponent of the flux towards a wet edge", "Deegan et al. 1997, thin drop"}.near(0.5, lambda, 0.01);
}

// A thin drop's flux is (1 - r²/R²)^-½: half of the mean in the middle, √0.19 of all in the outer tenth. The model's
// falls off with the distance from the edge alone, as at a straight one: (R - r)^-½ has 3/8 in the middle. So the rim
// is near the truth, and the middle of a small mark dries a fifth too slowly. Found 0.455 and 0.395; more is not
// claimed.
TEST_CASE("the flux of a small mark: right at the rim, a fifth too small in the middle", "[published][air]") {
    const Disc d = disc(2e-3, 25e-3, 0.0625e-3);
    Check{"share of a thin drop's rate in the outer tenth of its radius", "Weber 1873, Deegan et al. 1997"}.relative(
        std::sqrt(0.19), d.rim, 0.08);
    Check{"flux in a thin drop's middle over its mean, too small", "Weber 1873, Deegan et al. 1997"}.near(
        0.5, d.centre, 0.15);
}
