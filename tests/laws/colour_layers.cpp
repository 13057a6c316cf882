#include <catch2/catch.hpp>
#include <cmath>

#include "colour/layer.h"

using namespace tidemark;

namespace {

const double loads[] = {0, 1e-12, 1e-7, 1e-4, 0.003, 0.1, 0.249, 0.251, 1, 7, 60, 5e3, 1e8};
const double grounds[] = {0, 0.02, 0.5, 0.914, 1};

float in_floats(double KX, double SX, double ground) {
    colour::Bands K{}, S{};
    colour::BodyReflectance body;
    K.fill(static_cast<float>(KX)), S.fill(static_cast<float>(SX)), body.at.fill(static_cast<float>(ground));
    return colour::km_over(K, S, body).at[15];
}

} // namespace

TEST_CASE("no load of absorbing and scattering paint gives nonsense", "[law][colour]") {
    for (const double KX : loads)
        for (const double SX : loads)
            for (const double ground : grounds) {
                const double exact = colour::km_over(KX, SX, ground), fast = in_floats(KX, SX, ground);
                INFO("KX " << KX << " SX " << SX << " ground " << ground);
                CHECK((exact >= 0 && exact <= 1 + 1e-12));
                // Rounding of the inputs to float, a few operations of 6e-8, and the exponential's 2e-7; a millionth
                // of reflectance is a thousandth of the smallest step a screen shows.
                CHECK(fast == Approx(exact).epsilon(2e-6).margin(1e-6));
            }
}

TEST_CASE("the limits of the layer formula are reached without a step", "[law][colour]") {
    for (const double g : grounds) {
        CHECK(colour::km_over(0, 0, g) == Approx(g).margin(1e-15));
        CHECK(colour::km_over(0.7, 1e-6, g) == Approx(g * std::exp(-1.4)).margin(1e-6));
        CHECK(colour::km_over(0.7, 0, g) == Approx(g * std::exp(-1.4)).margin(1e-14));
        const double white = (0.8 * (1 - g) + g) / (0.8 * (1 - g) + 1); // K = 0
        CHECK(colour::km_over(0, 0.8, g) == Approx(white).margin(1e-14));
        CHECK(colour::km_over(1e-6, 0.8, g) == Approx(white).margin(4e-6));
        CHECK(colour::km_over(1e3, 1e3, g) == Approx(2 - std::sqrt(3.0)).epsilon(1e-12)); // K = S, thick: a - b
        for (const double x : {0.25, 0.4}) // on both sides of any switch between series and function
            CHECK(in_floats(x * (1 - 1e-5), 0.02, g) == Approx(in_floats(x * (1 + 1e-5), 0.02, g)).margin(5e-5));
    }
}

TEST_CASE("two half layers are one layer", "[law][colour]") {
    for (const double KX : {0.01, 0.4, 3.0})
        for (const double SX : {0.0, 0.02, 1.5})
            for (const double g : grounds) {
                const double half = colour::km_over(KX / 2, SX / 2, g);
                CHECK(colour::km_over(KX / 2, SX / 2, half) == Approx(colour::km_over(KX, SX, g)).epsilon(1e-12));
            }
}

TEST_CASE("more absorption is darker, a paler ground is paler", "[law][colour]") {
    for (const double SX : {0.0, 0.1, 2.0}) {
        double last = 1;
        for (const double KX : {0.0, 0.05, 0.2, 0.8, 3.0}) {
            const double R = colour::km_over(KX, SX, 0.8);
            CHECK(R < last);
            CHECK(colour::km_over(KX, SX, 0.9) > R);
            last = R;
        }
    }
}

TEST_CASE("water darkens a ground the more the fuller its pores, and never lightens it", "[law][colour]") {
    for (const double r : {0.0, 0.01, 0.05, 0.1, 0.3, 0.6, 0.9, 1.0}) {
        colour::BodyReflectance dry;
        dry.at.fill(static_cast<float>(r));
        CHECK(colour::wetted(dry, 0).at[0] == dry.at[0]);
        float last = dry.at[0];
        for (const double share : {0.25, 0.5, 0.75, 1.0, 3.0}) {
            const float now = colour::wetted(dry, share).at[0];
            CHECK(now <= last);
            CHECK(now >= 0);
            last = now;
        }
        if (r > 0.1 && r < 1) CHECK(last < dry.at[0] - 0.005f);
    }
}
