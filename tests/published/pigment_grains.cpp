// Grains in water: Stokes (1851), Richardson & Zaki (1954), Einstein (1905, 1906/1911), Batchelor (1977).
#include "pigment/grain.h"
#include "pigment/viscosity.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark;
using published::Check;

namespace {
constexpr double room_K = 293.15;
}

TEST_CASE("water: density and viscosity at 10, 20 and 30 degrees follow the reference correlations",
          "[published][pigment]") {
    // Kell 1975 and Patek et al. 2009 (IAPWS), printed values; half a unit of the last digit.
    const double t[] = {10, 20, 30}, rho[] = {999.70, 998.20, 995.65}, mu[] = {1.3059e-3, 1.0016e-3, 0.7972e-3};
    for (int k = 0; k < 3; ++k) {
        Check{"density of water, 10 to 30 °C", "Kell 1975", "kg/m³"}.near(
            rho[k], pigment::water_density_kg_m3(273.15 + t[k]), 0.006);
        Check{"viscosity of water, 10 to 30 °C", "Patek et al. 2009 (IAPWS)", "mPa s"}.near(
            1e3 * mu[k], 1e3 * pigment::water_viscosity_Pa_s(273.15 + t[k]), 1e-4);
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
            Check{"sinking of spheres of 0.5 to 10 µm in water", "Stokes 1851", "µm/s"}.relative(
                um_s[a][b], 1e6 * pigment::stokes_velocity_m_s(density[a], 1e-6 * d_um[b], room_K),
                0.005); // rounding of the third digit
}

TEST_CASE("richardson and zaki 1954: a crowd settles slower", "[published][pigment]") {
    const double phi[] = {0.01, 0.05, 0.10, 0.20, 0.40},
                 share[] = {0.954341, 0.787798, 0.612671, 0.354298, 0.0929829};
    for (int k = 0; k < 5; ++k)
        Check{"sinking in a crowd of 1 to 40 %, over alone", "Richardson & Zaki 1954"}.relative(
            share[k], pigment::hindered(static_cast<float>(phi[k])), 1e-3);
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
    const Check jitter{"jitter of grains of 0.1 and 1 µm: diffusivity", "Einstein 1905", "µm²/s"};
    jitter.relative(4.288, 1e12 * pigment::diffusivity_m2_s(0.1e-6, room_K), 1e-3);
    jitter.relative(0.4288, 1e12 * pigment::diffusivity_m2_s(1e-6, room_K), 1e-3);
}

TEST_CASE("fine grains stay afloat: sedimentation length D/v against the depth of a wash", "[published][pigment]") {
    const auto length = [](double d_m) {
        return pigment::diffusivity_m2_s(d_m, room_K) / pigment::stokes_velocity_m_s(2350, d_m, room_K);
    };
    const std::string balance = "Stokes 1851, Einstein 1905";
    Check{"depth at which grains of 0.1 µm stay afloat", balance, "µm"}.relative(583.1, 1e6 * length(0.1e-6),
                                                                                 1e-3); // deeper than any wash
    Check{"depth at which grains of 0.5 µm stay afloat", balance, "µm"}.relative(4.665, 1e6 * length(0.5e-6),
                                                                                 1e-3); // settles
}

TEST_CASE("einstein 1906, batchelor 1977: crowding thickens a dilute mix by 2.5 phi", "[published][pigment]") {
    // All agree to 1 % below phi 0.03; the slope at 0 is 2.5.
    for (const double phi : {0.001, 0.005, 0.01, 0.02, 0.03}) {
        const double ours = pigment::crowding(static_cast<float>(phi));
        Check{"viscosity of a mix with up to 3 % of grains, over water", "Einstein 1906: 1 + 2.5 φ"}.relative(
            1 + 2.5 * phi, ours, 0.01);
        Check{"viscosity of a mix with up to 3 % of grains, second order", "Batchelor 1977: + 6.2 φ²"}.relative(
            1 + 2.5 * phi + 6.2 * phi * phi, ours, 0.002);
    }
    // float: 1e-7/1e-3 beside phi's own 0.3 %
    Check{"how fast grains thicken a mix, at the first grain", "Einstein 1906"}.relative(
        2.5, (pigment::crowding(1e-3f) - 1) / 1e-3, 0.005);
    // 0.64, 1.6: 1.3124
    Check{"viscosity of a mix with 10 % of grains, over water", "Krieger & Dougherty 1959"}.relative(
        1.312, pigment::crowding(0.10f), 0.005);
    CHECK(std::isfinite(pigment::crowding(5.0f)));
}
