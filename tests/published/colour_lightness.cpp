// Sources: CIE 1976 L*, ISO/CIE 11664-4; Munsell value: quintic of ASTM D1535 (coefficients from memory; they give
// Y = 100.000 at V = 10).
#include "colour/lab.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark;
using published::Check;

TEST_CASE("L* is that of CIE 1976", "[published][colour]") {
    const double table[][2] = {{0, 0},         {0.1, 0.90330}, {0.5, 4.51648}, {0.8856452, 8.00000}, {1, 8.99144},
                               {2, 15.48724},  {5, 26.73477},  {10, 37.84243}, {18.4187, 50.00006},  {20, 51.83721},
                               {50, 76.06926}, {90, 95.99677}, {100, 100}};
    for (const auto& [Y, lstar] : table) {
        Check{"lightness L* from Y, 0 to 100", "CIE 1976 (ISO/CIE 11664-4)"}.near(lstar, colour::lstar_from_Y(Y),
                                                                                  1e-5);
        CHECK(colour::Y_from_lstar(colour::lstar_from_Y(Y)) == Approx(Y).margin(1e-11));
    }
}

TEST_CASE("the straight and the curved part of L* meet with the same slope", "[published][colour]") {
    const double joint = 100 * std::pow(6.0 / 29.0, 3), step = 1e-4;
    const double below = colour::lstar_from_Y(joint) - colour::lstar_from_Y(joint - step);
    const double above = colour::lstar_from_Y(joint + step) - colour::lstar_from_Y(joint);
    CHECK(above == Approx(below).epsilon(1e-3));
}

TEST_CASE("L* is ten times the Munsell value to within 1.1", "[published][colour]") {
    const double lstar[] = {10.41, 20.24, 30.38, 40.74, 51.00, 61.05, 70.86, 80.53, 90.18};
    for (int V = 1; V <= 9; ++V) {
        const double Y = V * (1.1914 + V * (-0.22533 + V * (0.23352 + V * (-0.020484 + V * 0.00081939))));
        Check{"lightness L* of Munsell values 1 to 9", "ASTM D1535, from memory"}.near(
            lstar[V - 1], colour::lstar_from_Y(Y), 0.005); // two decimals tabled
        CHECK(std::abs(colour::lstar_from_Y(Y) - 10 * V) < 1.1);
    }
}
