// Sources: CIE 15 (1931 2° observer, illuminant D65, L*a*b*). The tabled values are sums over 1 nm, 380 to 780 nm,
// computed apart from this program from the published tables; the differences are the price of 16 bands.
#include "colour/lab.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace tidemark;
using published::Check;

namespace {

colour::Reflectance sampled(const std::function<double(double)>& spectrum) {
    colour::Reflectance r;
    for (int k = 0; k < colour::bands; ++k)
        r.at[k] = static_cast<float>(spectrum(colour::first_band_nm + k * colour::band_step_nm));
    return r;
}

} // namespace

TEST_CASE("a perfect white has the tristimulus values of D65", "[published][colour]") {
    const colour::Xyz white = colour::xyz_from(sampled([](double) { return 1.0; }));
    const Check tristimulus{"X, Y, Z of a perfect white in D65", "CIE 15"};
    tristimulus.near(95.0423, white.X, 1e-4);
    tristimulus.near(100, white.Y, 1e-4);
    tristimulus.near(108.8610, white.Z, 1e-4);
    const Check chromaticity{"x, y of D65", "CIE 15"}; // 0.3127, 0.3290, four decimals
    chromaticity.near(0.3127, white.X / (white.X + white.Y + white.Z), 6e-5);
    chromaticity.near(0.3290, white.Y / (white.X + white.Y + white.Z), 6e-5);
}

TEST_CASE("a flat spectrum is neutral on the screen and in L*a*b*", "[published][colour]") {
    for (const double r : {0.02, 0.18, 0.5, 0.9, 1.0}) {
        const colour::Xyz xyz = colour::xyz_from(sampled([r](double) { return r; }));
        const colour::Lab lab = colour::lab_from(xyz);
        CHECK(std::abs(lab.a) < 0.002); // weights are tabled to six decimals
        CHECK(std::abs(lab.b) < 0.002);
        const colour::Srgb8 c = colour::srgb_from(xyz);
        CHECK((c.r == c.g && c.g == c.b));
    }
}

TEST_CASE("sixteen bands are as far from the sum over 1 nm as tabled", "[published][colour]") {
    struct Row {
        const char* name;
        std::function<double(double)> spectrum;
        double X, Y, Z, dE76;
    };
    const Row rows[] = {
        {"flat", [](double) { return 0.5; }, 47.5211, 50.0000, 54.4305, 0.000},
        {"ramp", [](double w) { return 0.1 + 0.7 * (w - 400) / 300; }, 46.4872, 46.5820, 25.0099, 0.009},
        {"edge", [](double w) { return 0.05 + 0.8 / (1 + std::exp(-(w - 580) / 15)); }, 43.5604, 30.1418, 5.5733,
         1.171},
        {"blue", [](double w) { return 0.05 + 0.5 * std::exp(-std::pow((w - 450) / 40, 2)); }, 12.3315, 7.8011,
         47.8650, 3.012},
        {"green", [](double w) { return 0.05 + 0.4 * std::exp(-std::pow((w - 530) / 50, 2)); }, 15.0770, 28.4091,
         13.0540, 1.995}};
    for (const Row& row : rows) {
        const colour::Lab exact = colour::lab_from({row.X, row.Y, row.Z});
        const colour::Lab ours = colour::lab_from(colour::xyz_from(sampled(row.spectrum)));
        INFO(row.name);
        const double dE =
            std::sqrt(std::pow(ours.L - exact.L, 2) + std::pow(ours.a - exact.a, 2) + std::pow(ours.b - exact.b, 2));
        Check{"16 bands against a sum over 1 nm, five spectra", "CIE 15, 1931 observer", "ΔE*ab"}.near(row.dE76, dE,
                                                                                                       0.05);
    }
}
