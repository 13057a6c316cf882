// Film on an incline, Nusselt (1916): u(z) = 3 u_mean (z/h - z²/2h²); its halves carry 5/16 and 11/16 of the flux.
#include "support/pigment_scene.h"
#include "support/published.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::pigment_scene;
using published::Check;

namespace {
double centre(const sheet::SheetState& s, const grid::Field<float>& m) {
    double sum = 0, moment = 0;
    for (int i = 0; i < s.geometry.nx; ++i)
        sum += m(i, 8), moment += m(i, 8) * (i + 0.5);
    return s.geometry.cell_m * moment / sum;
}
} // namespace

TEST_CASE("nusselt 1916: the lower half runs at 0.625, the upper at 1.375 of the mean", "[published][pigment]") {
    // integral of 3 (z - z²/2) from 0 to 1/2 by the midpoint rule, from the parabola itself
    double lower = 0;
    for (int k = 0; k < 1000; ++k) {
        const double z = (k + 0.5) / 2000;
        lower += 3 * (z - z * z / 2) / 2000;
    }
    CHECK(pigment::lower_share == Approx(lower).epsilon(1e-6));
    CHECK(pigment::upper_share == Approx(1 - lower).epsilon(1e-6));

    const float film_m = 100e-6f;
    const double mean_m_s = 4.534e-3; // 8 degrees, 100 um
    auto s = flooded(256, 32, film_m, {grain(1500, 0.1e-6)});
    auto& p = s.pigments[0];
    for (int j = 0; j < 32; ++j) {
        for (int i = 40; i < 60; ++i)
            p.afloat_lower(i, j) = p.afloat_upper(i, j) = 1e-3f;
        for (int i = 0; i + 1 < 256; ++i)
            s.flux_x_m2_s(i, j) = static_cast<float>(mean_m_s) * film_m;
    }
    const double low0 = centre(s, p.afloat_lower), up0 = centre(s, p.afloat_upper), dt_s = 0.05;
    pigment::PigmentWorkspace w;
    const int steps = 160;
    for (int n = 0; n < steps; ++n)
        pigment::advect(s, w, dt_s); // the ends are fed and drained: film stays even
    const double path_m = mean_m_s * steps * dt_s;
    // Exact in a linear scheme; the limiter sees the two flanks differently by a fraction of a cell in 73.
    Check{"path of pigment in the lower half of a film, over the mean", "Nusselt 1916"}.relative(
        0.625, (centre(s, p.afloat_lower) - low0) / path_m, 0.005);
    Check{"path of pigment in the upper half of a film, over the mean", "Nusselt 1916"}.relative(
        1.375, (centre(s, p.afloat_upper) - up0) / path_m, 0.005);
}
