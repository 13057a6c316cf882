// Sources: Kubelka & Munk 1931; Kubelka 1948 (hyperbolic form, R0, T); Kubelka 1954 (layers on layers).
#include "colour/layer.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark;
using published::Check;

namespace {

struct Case {
    double K, S, X, ground, R;
};
// Computed from the hyperbolic form in double precision, and by hand for the limits.
const Case cases[] = {{0, 1, 1, 0, 0.5},
                      {0, 1, 1, 0.8, 5.0 / 6},
                      {1, 0, 0.5, 0.8, 0.29430355},
                      {1, 1, 1, 0, 0.26014672},
                      {1, 1, 1, 0.8, 0.28751385},
                      {0.1, 1, 1, 0.85, 0.73817618},
                      {0.5, 0.05, 1, 0.85, 0.32128890},
                      {2, 0.1, 0.5, 0.85, 0.12701781},
                      {0.02, 5, 1, 0.1, 0.82432060},
                      {5, 0.5, 2, 0.9, 0.04554885},
                      {1e-6, 1, 1, 0.5, 0.66666581},
                      {1, 1e-6, 1, 0.8, 0.10826848},
                      {1, 1, 20, 0, 0.26794919}};

float one_band(double KX, double SX, double ground) {
    colour::Bands K{}, S{};
    colour::BodyReflectance body;
    K.fill(static_cast<float>(KX)), S.fill(static_cast<float>(SX)), body.at.fill(static_cast<float>(ground));
    return colour::km_over(K, S, body).at[7];
}

} // namespace

TEST_CASE("a paint layer has the reflectance of Kubelka and Munk", "[published][colour]") {
    for (const Case& c : cases) {
        INFO("K " << c.K << " S " << c.S << " X " << c.X << " on " << c.ground);
        Check{"reflectance of a layer, 13 cases", "Kubelka & Munk 1931, Kubelka 1948"}.near(
            c.R, colour::km_over(c.K * c.X, c.S * c.X, c.ground), 6e-9);
        CHECK(one_band(c.K * c.X, c.S * c.X, c.ground) == Approx(c.R).epsilon(2e-6));
    }
}

TEST_CASE("a paint layer follows the hyperbolic form to twelve digits", "[published][colour]") {
    for (const double K : {0.01, 0.3, 2.0})
        for (const double S : {0.02, 0.5, 4.0})
            for (const double X : {0.1, 1.0, 3.0})
                for (const double Rg : {0.0, 0.3, 0.9}) {
                    const double a = 1 + K / S, b = std::sqrt(a * a - 1), coth = 1 / std::tanh(b * S * X);
                    const double R = (1 - Rg * (a - b * coth)) / (a - Rg + b * coth);
                    Check{"reflectance of 27 layers on three grounds", "Kubelka 1948, hyperbolic form"}.relative(
                        R, colour::km_over(K * X, S * X, Rg), 1e-11);
                    // R0 + T² Rg / (1 - R0 Rg), Kubelka 1948
                    const double R0 = colour::km_over(K * X, S * X, 0);
                    const double T = b / (a * std::sinh(b * S * X) + b * std::cosh(b * S * X));
                    CHECK(R0 + T * T * Rg / (1 - R0 * Rg) == Approx(R).epsilon(1e-11));
                }
}

TEST_CASE("a layer over a layer: Kubelka 1954", "[published][colour]") {
    const double below = colour::km_over(0.2 * 0.7, 0.4 * 0.7, 0.85);
    const Check glaze{"a layer on paper, and a layer over that", "Kubelka 1954"};
    glaze.near(0.65921487, below, 6e-9);
    glaze.near(0.25465151, colour::km_over(0.5, 0.05, below), 6e-9);
}

TEST_CASE("K/S of a thick layer is (1-R)²/2R", "[published][colour]") {
    for (const double R : {0.02, 0.1, 0.26794919, 0.5, 0.9}) {
        const double K_over_S = (1 - R) * (1 - R) / (2 * R);
        Check{"reflectance of a thick layer from its K/S", "Kubelka & Munk 1931"}.relative(
            R, colour::km_over(500 * K_over_S, 500, 0.7), 1e-9);
    }
    CHECK(colour::km_over(200 * 4.05, 200, 0) == Approx(0.1).epsilon(1e-12));
}
