// Cohen (1960) Educ. Psychol. Meas. 20, 37: .492; Cohen (1968) Psychol. Bull. 70, 213: .348; Fleiss (1981)
// Statistical Methods for Rates and Proportions: .68. More digits worked out from the printed tables.
#include "judge/kappa.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tidemark::judge;
using published::Check;

TEST_CASE("kappa reproduces Cohen 1960 and Cohen 1968", "[published][judge]") {
    const Table found{{.44, .07, .09}, {.05, .20, .05}, {.01, .03, .06}};
    Check{"kappa of Cohen's table", "Cohen 1960"}.near(0.4915, weighted_kappa(found, unweighted(3)), 5e-5);
    Check{"kappa with Cohen's weights", "Cohen 1968"}.near(
        0.3478, weighted_kappa(found, {{0, 1, 3}, {1, 0, 6}, {3, 6, 0}}), 5e-5);
}

TEST_CASE("kappa reproduces Fleiss 1981, plain, linear and quadratic", "[published][judge]") {
    const Table found{{75, 1, 4}, {5, 4, 1}, {0, 0, 10}};
    Check{"kappa of Fleiss' table", "Fleiss 1981"}.near(0.6765, weighted_kappa(found, unweighted(3)), 5e-5);
    Check{"kappa of Fleiss' table, linear weights", "Fleiss 1981"}.near(
        0.7222, weighted_kappa(found, linear_weights(3)), 5e-5);
    Check{"kappa of Fleiss' table, quadratic weights", "Fleiss 1981"}.near(
        0.7553, weighted_kappa(found, quadratic_weights(3)), 5e-5);
}

TEST_CASE("kappa is 1 for the same sorting, 0 at chance, below for the reverse, NaN for one group", "[law][judge]") {
    CHECK(weighted_kappa({{3, 0}, {0, 5}}, unweighted(2)) == Approx(1));
    CHECK(weighted_kappa({{4, 8}, {2, 4}}, unweighted(2)) == Approx(0).margin(1e-12));
    CHECK(weighted_kappa({{0, 5}, {5, 0}}, unweighted(2)) == Approx(-1));
    CHECK(std::isnan(weighted_kappa({{9, 0}, {0, 0}}, unweighted(2))));
}
