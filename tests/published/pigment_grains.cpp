// Grains in water: Stokes (1851), Richardson & Zaki (1954), Einstein (1905, 1906/1911), Batchelor (1977).
#include "pigment/grain.h"
#include "pigment/viscosity.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark;

namespace {
constexpr double room_K = 293.15;
}

TEST_CASE("water: density and viscosity at 10, 20 and 30 degrees follow the reference correlations",
          "[published][pigment]") {
    // Kell 1975 and Patek et al. 2009 (IAPWS), printed values; half a unit of the last digit.
    const double t[] = {10, 20, 30}, rho[] = {999.70, 998.20, 995.65}, mu[] = {1.3059e-3, 1.0016e-3, 0.7972e-3};
    for (int k = 0; k < 3; ++k) {
        CHECK(pigment::water_density_kg_m3(273.15 + t[k]) == Approx(rho[k]).margin(0.006));
        CHECK(pigment::water_viscosity_Pa_s(273.15 + t[k]) == Approx(mu[k]).margin(1e-7));
    }
}

TEST_CASE("stokes 1851: settling velocity of spheres in water at 20 degrees", "[published][pigment]") {
    // v = (rho_p - rho) g d^2 / 18 mu with rho 998.20, mu 1.0016e-3, g 9.80665, to three digits.
    const double density[] = {1500, 2350, 4100, 5200}, d_um[] = {0.5, 1, 2, 5, 10};
    const double um_s[4][5] = {{0.0682, 0.273, 1.09, 6.82, 27.3},
                               {0.184, 0.735, 2.94, 18.4, 73.5},
                               {0.422, 1.69, 6.75, 42.2, 169},
                               {0.571, 2.29, 9.14, 57.1, 229}};
    for (int a = 0; a < 4; ++a)
        for (int b = 0; b < 5; ++b)
            CHECK(1e6 * pigment::stokes_velocity_m_s(density[a], 1e-6 * d_um[b], room_K) ==
                  Approx(um_s[a][b]).epsilon(0.005)); // rounding of the third digit
}

TEST_CASE("richardson and zaki 1954: a crowd settles slower", "[published][pigment]") {
    const double phi[] = {0.01, 0.05, 0.10, 0.20, 0.40},
                 share[] = {0.954341, 0.787798, 0.612671, 0.354298, 0.0929829};
    for (int k = 0; k < 5; ++k)
        CHECK(pigment::hindered(static_cast<float>(phi[k])) == Approx(share[k]).epsilon(1e-3));
    // The square roots against the power itself, over the whole range.
    double worst = 0;
    for (int k = 0; k <= 1000; ++k)
        worst = std::max(worst, std::abs(pigment::hindered(0.001f * k) - std::pow(1 - 0.001 * k, 4.65)));
    CHECK(worst < 3e-5);
    CHECK(pigment::hindered(0.0f) == 1.0f);
    CHECK(pigment::hindered(7.0f) == 0.0f);
}

TEST_CASE("einstein 1905: diffusivity of grains", "[published][pigment]") {
    // D = kT/3 pi mu d: 4.288 and 0.4288 um2/s for 0.1 and 1 um
    CHECK(pigment::diffusivity_m2_s(0.1e-6, room_K) == Approx(4.288e-12).epsilon(1e-3));
    CHECK(pigment::diffusivity_m2_s(1e-6, room_K) == Approx(0.4288e-12).epsilon(1e-3));
}

TEST_CASE("fine grains stay afloat: sedimentation length D/v against the depth of a wash", "[published][pigment]") {
    const auto length = [](double d_m) {
        return pigment::diffusivity_m2_s(d_m, room_K) / pigment::stokes_velocity_m_s(2350, d_m, room_K);
    };
    CHECK(length(0.1e-6) == Approx(583.1e-6).epsilon(1e-3)); // deeper than any wash
    CHECK(length(0.5e-6) == Approx(4.665e-6).epsilon(1e-3)); // settles
}

TEST_CASE("einstein 1906, batchelor 1977: crowding thickens a dilute mix by 2.5 phi", "[published][pigment]") {
    // All agree to 1 % below phi 0.03; the slope at 0 is 2.5.
    for (const double phi : {0.001, 0.005, 0.01, 0.02, 0.03}) {
        const double ours = pigment::crowding(static_cast<float>(phi));
        CHECK(ours == Approx(1 + 2.5 * phi).epsilon(0.01));
        CHECK(ours == Approx(1 + 2.5 * phi + 6.2 * phi * phi).epsilon(0.002));
    }
    CHECK((pigment::crowding(1e-3f) - 1) / 1e-3 ==
          Approx(2.5).epsilon(0.005));                               // float: 1e-7/1e-3 beside phi's own 0.3 %
    CHECK(pigment::crowding(0.10f) == Approx(1.312).epsilon(0.005)); // Krieger & Dougherty with 0.64, 1.6: 1.3124
    CHECK(std::isfinite(pigment::crowding(5.0f)));
}
