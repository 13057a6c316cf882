/// Moist air against printed tables. Values: ASHRAE Handbook, Fundamentals (Hyland & Wexler 1983) at 101.325 kPa;
/// Magnus form of the WMO; wet bulb of the same handbook and of Stull (2011), J. Appl. Meteor. Climatol. 50, 2267.
#include "air/moist_air.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark::air;
using published::Check;

namespace {

constexpr double zero_K = 273.15;
const std::string hyland_wexler = "Hyland & Wexler 1983 (ASHRAE)";

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
        Check{"saturation pressure, 0 to 40 °C", hyland_wexler, "Pa"}.relative(
            p_Pa, saturation_pressure_Pa(t + zero_K), 5e-4);
        CHECK(saturation_pressure_Pa(t + zero_K) == Approx(magnus_Pa(t)).epsilon(4e-3)); // another fit, 0.3 % apart
        Check{"density of saturated vapour, 0 to 40 °C", hyland_wexler, "g/m³"}.relative(
            c_g_m3, vapour_density_kg_m3(t + zero_K, 1) * 1e3, 1e-3);
    }
}

TEST_CASE("wet bulb follows from the psychrometric balance of the ASHRAE handbook", "[published][air]") {
    const double table[][3] = {{10, 50, 5.536},  {15, 60, 10.818}, {20, 30, 10.853}, {20, 50, 13.784},
                               {20, 70, 16.440}, {20, 90, 18.864}, {25, 40, 16.210}, {25, 80, 22.380},
                               {30, 30, 17.972}, {30, 60, 23.813}};
    for (const auto& [t, rh, wet] : table) {
        CAPTURE(t, rh);
        Check{"wet bulb, 10 to 30 °C, 30 to 90 %", "ASHRAE psychrometric balance", "°C"}.near(
            wet, wet_bulb_K(t + zero_K, rh / 100) - zero_K, 0.02); // chart precision
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
            Check{"Stull's fit less the wet bulb, 10 to 30 °C, 20 to 90 %", "Stull 2011, his stated error", "K"}
                .between(-1, 0.65, apart);
            sum += std::abs(apart);
        }
    Check{"Stull's fit from the wet bulb, 10 to 30 °C, mean distance", "Stull 2011, his stated error", "K"}.at_most(
        0.3, sum / n);
}

TEST_CASE("transport properties of air at 20 °C are those of the text-books", "[published][air]") {
    const AirProperties a = air_properties(zero_K + 20);
    const std::string tables = "text-books (Incropera & DeWitt)";
    Check{"density of air, 20 °C", tables, "kg/m³"}.relative(1.204, a.density_kg_m3, 0.002);
    Check{"viscosity of air, 20 °C", tables, "mm²/s"}.relative(15.06, a.viscosity_m2_s * 1e6, 0.01);
    Check{"heat conduction of air, 20 °C", tables, "W/mK"}.relative(0.0257, a.conductivity_W_mK, 0.01);
    Check{"diffusivity of vapour in air, 20 °C", "Marrero & Mason 1972", "mm²/s"}.relative(
        24.2, a.diffusivity_m2_s * 1e6, 0.01);
    Check{"Schmidt number of vapour in air, 20 °C", tables}.relative(0.6225, a.schmidt, 0.02);
    Check{"Prandtl number of air, 20 °C", tables}.relative(0.709, a.prandtl, 0.02);
    Check{"latent heat of water, 20 °C", tables, "kJ/kg"}.relative(2453.6, latent_heat_J_kg(zero_K + 20) * 1e-3,
                                                                   1e-3);
}
