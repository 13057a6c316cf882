/// Moist air against printed tables. Values: ASHRAE Handbook, Fundamentals (Hyland & Wexler 1983) at 101.325 kPa;
/// Magnus form of the WMO; wet bulb of the same handbook and of Stull (2011), J. Appl. Meteor. Climatol. 50, 2267.
#include "air/moist_air.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark::air;

namespace {

constexpr double zero_K = 273.15;

double magnus_Pa(double t) { return 611.2 * std::exp(17.62 * t / (243.12 + t)); }

double stull_C(double t, double rh) {
    return t * std::atan(0.151977 * std::sqrt(rh + 8.313659)) + std::atan(t + rh) - std::atan(rh - 1.676331) +
           0.00391838 * std::pow(rh, 1.5) * std::atan(0.023101 * rh) - 4.686035;
}

} // namespace

TEST_CASE("saturation vapour pressure is that of Hyland and Wexler 1983", "[published][air]") {
    // Printed to the nearest 0.1 Pa or 1 Pa: 0.05 %.
    const double table[][3] = {{0, 611.213, 4.84840},    {5, 872.487, 6.79652},    {10, 1227.995, 9.39695},
                               {15, 1705.448, 12.82409}, {20, 2338.804, 17.28664}, {25, 3169.216, 23.03159},
                               {30, 4246.030, 30.34816}, {35, 5627.819, 39.57171}, {40, 7383.460, 51.08746}};
    for (const auto& [t, p_Pa, c_g_m3] : table) {
        CAPTURE(t);
        CHECK(saturation_pressure_Pa(t + zero_K) == Approx(p_Pa).epsilon(5e-4));
        CHECK(saturation_pressure_Pa(t + zero_K) == Approx(magnus_Pa(t)).epsilon(4e-3)); // another fit, 0.3 % apart
        CHECK(vapour_density_kg_m3(t + zero_K, 1) * 1e3 == Approx(c_g_m3).epsilon(1e-3));
    }
}

TEST_CASE("wet bulb follows from the psychrometric balance of the ASHRAE handbook", "[published][air]") {
    const double table[][3] = {{10, 50, 5.536},  {15, 60, 10.818}, {20, 30, 10.853}, {20, 50, 13.784},
                               {20, 70, 16.440}, {20, 90, 18.864}, {25, 40, 16.210}, {25, 80, 22.380},
                               {30, 30, 17.972}, {30, 60, 23.813}};
    for (const auto& [t, rh, wet] : table) {
        CAPTURE(t, rh);
        CHECK(wet_bulb_K(t + zero_K, rh / 100) - zero_K == Approx(wet).margin(0.02)); // chart precision
    }
}

TEST_CASE("wet bulb agrees with Stull 2011 within the error he states", "[published][air]") {
    CHECK(stull_C(20, 50) == Approx(13.7).margin(0.05)); // his worked example
    double sum = 0;
    int n = 0;
    for (int t = 10; t <= 30; t += 5)
        for (int rh = 20; rh <= 90; rh += 10, ++n) {
            const double apart = stull_C(t, rh) - (wet_bulb_K(t + zero_K, rh / 100.0) - zero_K);
            CAPTURE(t, rh);
            CHECK(apart > -1.0);
            CHECK(apart < 0.65);
            sum += std::abs(apart);
        }
    CHECK(sum / n < 0.3);
}

TEST_CASE("transport properties of air at 20 °C are those of the text-books", "[published][air]") {
    const AirProperties a = air_properties(zero_K + 20);
    CHECK(a.density_kg_m3 == Approx(1.204).epsilon(0.002));
    CHECK(a.viscosity_m2_s == Approx(15.06e-6).epsilon(0.01));
    CHECK(a.conductivity_W_mK == Approx(0.0257).epsilon(0.01));
    CHECK(a.diffusivity_m2_s == Approx(2.42e-5).epsilon(0.01)); // Marrero & Mason 1972
    CHECK(a.schmidt == Approx(0.6225).epsilon(0.02));
    CHECK(a.prandtl == Approx(0.709).epsilon(0.02));
    CHECK(latent_heat_J_kg(zero_K + 20) == Approx(2453.6e3).epsilon(1e-3));
}
