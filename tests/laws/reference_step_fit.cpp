/// Soft steps of known width and place, laid through rows of values.
#include "reference/step_fit.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using tidemark::reference::StepFit;

namespace {

std::vector<double> row_of(int n, double at, double width, double before, double after) {
    std::vector<double> row;
    for (int k = 0; k < n; ++k)
        row.push_back(before + (after - before) * 0.5 * std::erfc(-(k - at) / (width / 2.5631031) * M_SQRT1_2));
    return row;
}

} // namespace

TEST_CASE("a soft step is found where it is, as wide as it is, between its levels", "[law][reference]") {
    const StepFit fit(1, 121);
    for (const double width : {1.5, 3.0, 7.3, 20.0, 60.0})
        for (const double at : {45.0, 60.3, 71.8}) {
            INFO("width " << width << " at " << at);
            const auto step = fit.falling(row_of(121, at, width, 70, 30));
            REQUIRE(step);
            CHECK(step->width == Approx(width).epsilon(0.06)); // places are tried a quarter of s apart
            CHECK(step->at == Approx(at).margin(0.26 + 0.05 * width));
            CHECK(step->change == Approx(-40).epsilon(0.05));
            CHECK(step->explained > 0.995);
        }
}

TEST_CASE("a few values far off do not make a step wider", "[law][reference]") {
    const StepFit fit(1, 121);
    std::vector<double> row = row_of(121, 60, 4, 70, 30);
    row[3] = 100, row[20] = 95, row[110] = 0; // a spark, a twig: between such levels it would be 60 wide and more
    REQUIRE(fit.falling(row));
    CHECK(fit.falling(row)->width == Approx(4).epsilon(0.1));
}

TEST_CASE("what rises, is even, or too short has no falling step", "[law][reference]") {
    const StepFit fit(1, 40);
    CHECK_FALSE(fit.falling(row_of(40, 20, 6, 30, 70)));
    CHECK_FALSE(fit.falling(std::vector<double>(40, 55.0)));
    CHECK_FALSE(fit.falling(std::vector<double>{}));
    CHECK_FALSE(fit.falling(std::vector<double>{70}));
    CHECK_FALSE(fit.falling(std::vector<double>{70, 30})->width > 1.5);
}

TEST_CASE("three even stretches are found where they meet", "[law][reference]") {
    std::vector<double> row(60, 80.0);
    std::fill(row.begin() + 17, row.begin() + 41, 30.0);
    std::fill(row.begin() + 41, row.end(), 45.0);
    const auto t = tidemark::reference::three_levels(row);
    CHECK(t.second == 17);
    CHECK(t.third == 41);
    CHECK(t.residual == Approx(0).margin(1e-6));
    row[50] = 46; // of 19 alike: one off by 1
    CHECK(tidemark::reference::three_levels(row).residual == Approx(18 / 19.0));
}
