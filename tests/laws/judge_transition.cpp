#include "judge/transition.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace tidemark::judge;

namespace {
template <class L> Profile profile(double from_mm, double to_mm, L&& lstar) {
    Profile p;
    p.from_mm = from_mm;
    for (double s = from_mm; s <= to_mm + 1e-9; s += p.step_mm)
        p.lstar.push_back(static_cast<float>(lstar(s)));
    return p;
}
} // namespace

TEST_CASE("a straight ramp of 5 mm has a 10-90 % width of 4 mm", "[law][judge]") {
    const auto p = profile(-20, 20, [](double s) { return s < -2.5 ? 30 : s > 2.5 ? 80 : 55 + 10 * s; });
    const auto t = measure_transition(p);
    CHECK(t.width_mm == Approx(4).margin(0.01)); // interpolated between samples of a tenth of a millimetre
    CHECK(t.inside_L == Approx(30));
    CHECK(t.outside_L == Approx(80));
    CHECK(std::abs(t.at_mm) <= 0.1);
}

TEST_CASE("an edge that ran 8 mm past the mask is measured where it lies", "[law][judge]") {
    const auto at_mask = measure_transition(profile(-20, 20, [](double s) { return 60 + 15 * std::tanh(s); }));
    const auto moved = measure_transition(profile(-20, 20, [](double s) { return 60 + 15 * std::tanh(s - 8); }));
    CHECK(moved.width_mm == Approx(at_mask.width_mm).epsilon(0.01));
    CHECK(moved.at_mm == Approx(8).margin(0.11));
}

TEST_CASE("a rim on either side changes neither plateau nor width", "[law][judge]") {
    const auto step = [](double s) { return s < -0.25 ? 60.0 : s > 0.25 ? 80.0 : 70 + 40 * s; };
    const auto plain = measure_transition(profile(-20, 20, step));
    const auto rim_in = measure_transition(
        profile(-20, 20, [&](double s) { return step(s) - 15 * (s > -1.25 && s < -0.25 ? 1 : 0); }));
    const auto rim_out = measure_transition(profile(-20, 20, [&](double s) {
        return 140 - step(s) - 15 * (s > 0.25 && s < 1.25 ? 1 : 0); // the neighbour is the dark one, with its own rim
    }));
    CHECK(plain.width_mm == Approx(0.4).margin(0.01));
    for (const auto& t : {rim_in, rim_out}) {
        CHECK(std::min(t.inside_L, t.outside_L) == Approx(60));
        CHECK(std::max(t.inside_L, t.outside_L) == Approx(80));
        CHECK(t.width_mm <= 0.5);
    }
}

TEST_CASE("a graded wash can end in a hard edge", "[law][judge]") {
    const auto t = measure_transition(profile(-20, 20, [](double s) { return s < 0 ? 60 + s : 90; }));
    CHECK(t.inside_L == Approx(60).margin(0.2)); // L* falls by 1 a millimetre
    CHECK(t.outside_L == Approx(90));
    CHECK(t.width_mm <= 0.1);
}

TEST_CASE("noise a tenth of the contrast leaves widths right on average", "[law][judge]") {
    // Forty profiles: each width has a scatter of about a quarter, the mean of forty one of 4 %.
    std::mt19937 random(11);
    std::normal_distribution<double> grain(0, 4);
    double sum = 0;
    for (int n = 0; n < 40; ++n) {
        std::vector<double> noise(83);
        for (double& v : noise)
            v = grain(random); // one value a cell of half a millimetre
        sum += measure_transition(profile(-20, 20, [&](double s) {
                   const double at = (s + 20.2) / 0.5, t = at - std::floor(at);
                   const auto k = static_cast<std::size_t>(at);
                   return 50 + 20 * std::erf(s / (2 * std::sqrt(2.0))) + (1 - t) * noise[k] + t * noise[k + 1];
               })).width_mm;
    }
    CHECK(sum / 40 == Approx(2 * 2.5631).epsilon(0.15));
}

TEST_CASE("two equal sides have no edge", "[law][judge]") {
    CHECK(std::isnan(measure_transition(profile(-20, 20, [](double) { return 60.0; })).width_mm));
}

TEST_CASE("the monotone fit keeps rising values, pools falling ones and keeps the mean", "[law][judge]") {
    CHECK(monotone_fit({1, 2, 4}) == std::vector<double>{1, 2, 4});
    CHECK(monotone_fit({3, 1, 2, 8, 6}) == std::vector<double>{2, 2, 2, 7, 7});
}
