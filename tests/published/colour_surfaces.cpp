// Sources: Saunderson 1942 (correction); Walsh 1926, Duntley 1942 (diffuse reflectance inside a flat surface);
// Ångström 1925, Lekner & Dorf 1988, Appl. Opt. 27, 1278 (wet surfaces; interpolation of absorption from memory).
#include "colour/lab.h"
#include "colour/layer.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidemark;
using published::Check;

namespace {

/// Fresnel reflectance for unpolarised light that falls diffusely on a flat surface from outside, by quadrature.
double diffuse_outside(double n) {
    constexpr int steps = 20000;
    double sum = 0;
    for (int k = 0; k < steps; ++k) {
        const double angle = (k + 0.5) / steps * std::numbers::pi / 2, c = std::cos(angle);
        const double t = std::sqrt(1 - std::pow(std::sin(angle) / n, 2));
        const double s = (c - n * t) / (c + n * t), p = (n * c - t) / (n * c + t);
        sum += (s * s + p * p) / 2 * std::sin(2 * angle);
    }
    return sum * std::numbers::pi / 2 / steps;
}

colour::BodyReflectance flat(double r) {
    colour::BodyReflectance body;
    body.at.fill(static_cast<float>(r));
    return body;
}

/// A dry sheet measured as `dry`, then soaked and seen through the film.
double wet(double dry) {
    const auto soaked = colour::wetted(flat(colour::body_from_seen(colour::dry_matt, dry)), 1);
    return colour::seen_through(colour::under_water, static_cast<double>(soaked.at[3]));
}

} // namespace

TEST_CASE("the surface correction is that of Saunderson", "[published][colour]") {
    const double table[][2] = {{0, 0.04},         {0.1, 0.08085106}, {0.2, 0.12727273},
                               {0.5, 0.31428571}, {0.8, 0.63076923}, {1, 1}};
    for (const auto& [body, seen] : table) {
        const colour::Surface s{0.04, 0.6};
        Check{"reflectance seen through a surface", "Saunderson 1942"}.near(seen, colour::seen_through(s, body),
                                                                            6e-9);
        CHECK(colour::body_from_seen(s, colour::seen_through(s, body)) == Approx(body).margin(1e-12));
    }
}

TEST_CASE("less light than the gloss alone is a black body, not a negative one", "[colour]") {
    CHECK(colour::body_from_seen(colour::dry_matt, 0.01) == 0);
    CHECK(colour::body_from_seen(colour::dry_matt, 1.2) == 1);
}

TEST_CASE("the water surface has the constants of Fresnel, Walsh and Duntley", "[published][colour]") {
    constexpr double n = 1.333;
    CHECK(diffuse_outside(1.5) == Approx(0.091778).margin(2e-6)); // Walsh 1926: 0.0918
    CHECK(1 - (1 - diffuse_outside(1.5)) / (1.5 * 1.5) == Approx(0.596346).margin(2e-6));
    Check{"light turned back inside a water surface", "Walsh 1926, Duntley 1942"}.near(
        1 - (1 - diffuse_outside(n)) / (n * n), colour::under_water.k2, 1e-5);
    Check{"light turned back by a water surface, straight on", "Fresnel"}.near(
        std::pow((n - 1) / (n + 1), 2), colour::under_water.k1, 4e-4); // 0.0204, kept as 0.02
}

TEST_CASE("wet surfaces are darker as Lekner and Dorf have it", "[published][colour]") {
    // k1 is 0.02 here and 0.02037 in the table: up to 0.0004 of reflectance.
    const double table[][2] = {{0.1, 0.07096}, {0.2, 0.12735}, {0.3, 0.19055}, {0.4, 0.26188},  {0.5, 0.34298},
                               {0.6, 0.43598}, {0.7, 0.54367}, {0.8, 0.66980}, {0.85, 0.74131}, {0.9, 0.81949}};
    for (const auto& [dry, soaked] : table)
        Check{"reflectance of a wet surface, 0.1 to 0.9 when dry", "Ångström 1925, Lekner & Dorf 1988"}.near(
            soaked, wet(dry), 5e-4);
    const auto shift = [](double lstar) {
        return lstar - colour::lstar_from_Y(100 * wet(colour::Y_from_lstar(lstar) / 100));
    };
    Check{"how much darker L* 69.5 is when wet", "Ångström 1925, Lekner & Dorf 1988"}.near(11.3, shift(69.5), 0.1);
    CHECK(shift(69.5) > shift(96.0)); // largest in the mid-tones
    CHECK(shift(69.5) > shift(37.8));
}

TEST_CASE("fibre in water absorbs more than fibre in air, by the ratio of what turns away", "[published][colour]") {
    const double ratio = (1 - diffuse_outside(1.5 / 1.333)) / (1 - diffuse_outside(1.5));
    const double a_dry = 1 - 0.6;
    const double a_wet = 1 - colour::wetted(flat(colour::body_from_seen(colour::dry_matt, 0.6)), 1).at[0];
    CHECK(a_wet == Approx(a_dry * ((1 - a_dry) * ratio + a_dry)).epsilon(1e-5));
}
