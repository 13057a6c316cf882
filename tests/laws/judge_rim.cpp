#include "support/judge_scene.h"

#include <catch2/catch.hpp>

using namespace judge_scene;

namespace {
/// A hard edge with a rim two millimetres wide: full depth over most of it.
double rimmed(double d, double rim_L, double inside, double outside) {
    if (d >= 0)
        return outside;
    return d > -2 ? inside - rim_L : inside;
}
} // namespace

TEST_CASE("a rim is measured against the wash that it bounds", "[law][judge]") {
    for (const double rim_L : {1.0, 2.9, 3.1, 12.0}) {
        const auto e = tilted_edge(25, [=](double d) { return rimmed(d, rim_L, 60, 92); }).edges().at(0);
        CAPTURE(rim_L);
        CHECK(e.rim_L == Approx(rim_L).margin(0.05)); // the middle of the rim is flat: nothing to interpolate
        CHECK(e.inside_L == Approx(60).margin(0.05));
        CHECK(e.tidemark == (rim_L >= 3));
        CHECK(e.word == "hard");
    }
}

TEST_CASE("granulation does not pose as a tidemark, nor hide one", "[law][judge]") {
    for (const unsigned seed : {5u, 6u, 7u}) {
        auto even = tilted_edge(25, [](double d) { return d < 0 ? 60.0 : 92.0; });
        auto rim = tilted_edge(25, [](double d) { return rimmed(d, 6, 60, 92); });
        granulate(even, 3, seed), granulate(rim, 3, seed);
        CHECK(even.edges().at(0).rim_L < 1.5); // a window's mean over 5 mm and half a millimetre has 1 L* of noise
        CHECK(rim.edges().at(0).rim_L == Approx(6).margin(1.5));
    }
}

TEST_CASE("a light wash has no rim for meeting a dark one", "[law][judge]") {
    const auto e = tilted_edge(0, [](double d) { return blurred_step(d, 1, 85, 40); }).edges().at(0);
    CHECK(e.rim_L < 0.2); // the plateau next to a Gaussian edge is within 0.5 % of its level
    CHECK(e.delta_L == Approx(45).margin(0.5));
}

TEST_CASE("a rim between two equally dark washes is a tidemark on a lost edge", "[law][judge]") {
    const auto e = tilted_edge(0, [](double d) { return d < 0 && d > -1.5 ? 50.0 : 60.0; }).edges().at(0);
    CHECK(e.word == "lost");
    CHECK(e.tidemark);
}
