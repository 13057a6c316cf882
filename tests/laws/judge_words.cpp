#include "support/judge_scene.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace judge_scene;
using plan::EdgeWord;

TEST_CASE("the words change at 1, 3 and 10 mm and at 4 L*", "[law][judge]") {
    CHECK(judge::edge_word(0.999, 30) == EdgeWord::hard);
    CHECK(judge::edge_word(1.0, 30) == EdgeWord::firm);
    CHECK(judge::edge_word(2.999, 30) == EdgeWord::firm);
    CHECK(judge::edge_word(3.0, 30) == EdgeWord::soft);
    CHECK(judge::edge_word(10.0, 30) == EdgeWord::soft);
    CHECK(judge::edge_word(10.01, 30) == EdgeWord::lost);
    CHECK(judge::edge_word(0.5, 3.99) == EdgeWord::lost);
    CHECK(judge::edge_word(0.5, 4.0) == EdgeWord::hard);
    CHECK(judge::edge_word(std::numeric_limits<double>::quiet_NaN(), 0) == EdgeWord::lost);
}

TEST_CASE("a step from one cell to the next is hard at any angle", "[law][judge]") {
    for (const double angle : {0.0, 10.0, 33.0, 45.0, 90.0}) {
        const auto edges = tilted_edge(angle, [](double d) { return d < 0 ? 50 : 90; }).edges();
        REQUIRE(edges.size() == 1);
        CHECK(edges[0].width_mm < 1);
        CHECK(edges[0].word == "hard");
        CHECK(edges[0].delta_L == Approx(40).margin(0.5));
        CHECK_FALSE(edges[0].tidemark);
    }
}

TEST_CASE("blurs of 0.8, 2 and 6 mm are firm, soft and lost", "[law][judge]") {
    const auto word = [](double s) {
        return tilted_edge(
                   20, [=](double d) { return blurred_step(d, s, 50, 90); }, 100)
            .edges()
            .at(0)
            .word;
    };
    CHECK(word(0.8) == "firm");
    CHECK(word(2) == "soft");
    CHECK(word(6) == "lost");
}

TEST_CASE("a wide edge that bled 6 mm outwards keeps its width, and its place is told", "[law][judge]") {
    const auto here = tilted_edge(20, [](double d) { return blurred_step(d, 2, 50, 90); }).edges().at(0);
    const auto bled = tilted_edge(20, [](double d) { return blurred_step(d - 6, 2, 50, 90); }).edges().at(0);
    CHECK(bled.width_mm == Approx(here.width_mm).epsilon(0.03)); // the grid meets the two edges differently
    CHECK(bled.shift_mm == Approx(6).margin(0.25));              // half a cell
    CHECK(here.shift_mm == Approx(0).margin(0.25));
}
