// What the record holds of each cell: when it was first touched, and whether the hand came back there to its own dry edge.
#include "support/hand_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;

TEST_CASE("the record holds the second in which each cell was first touched", "[law][hand]") {
    scene::HandScene h(scene::small_sheet({{"PB29", 2}}), 1e-3);
    h.begin(plan::Wash{.mix = 1, .film_m = 60e-6, .pace_m2_s = 1e-4});
    const std::vector<hand::Touch> touches = h.work.touches;
    h.go(5);
    h.go(1e9); // in one go: the second is the touch's, not the one in which it was played
    REQUIRE(touches.back().at_s > 10);
    grid::Field<std::uint8_t> seen(h.s.geometry.nx, h.s.geometry.ny);
    for (const hand::Touch& t : touches)
        if (!std::exchange(seen(t.i, t.j), std::uint8_t{1}))
            REQUIRE(h.record.cells.after_s(t.i, t.j) == static_cast<int>(t.at_s));
}

TEST_CASE("the record marks the cells where a wash came back to its own edge without film", "[law][hand]") {
    scene::HandScene h(scene::small_sheet({{"PB29", 2}}), 1e-3);
    h.begin(plan::Wash{.mix = 1, .film_m = 60e-6, .pace_m2_s = 1e-4});
    const double half_s = h.work.end_s / 2;
    h.go(half_s);
    const sheet::ActCells first = h.record.cells;
    const auto marked = [&] {
        long count = 0;
        for (int j = 0; j < h.s.geometry.ny; ++j)
            for (int i = 0; i < h.s.geometry.nx; ++i)
                count += h.record.cells.how(i, j) == sheet::Touched::at_left_edge;
        return count;
    };
    CHECK(marked() == 0);
    for (int j = 0; j < h.s.geometry.ny; ++j) // what was laid has dried
        for (int i = 0; i < h.s.geometry.nx; ++i) h.s.film_m(i, j) = 0;
    h.go(1e9);
    REQUIRE(h.record.left_behind.faces > 10);
    CHECK(marked() > 0);
    CHECK(marked() <= h.record.left_behind.faces);
    constexpr int beside[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
    for (int j = 0; j < h.s.geometry.ny; ++j)
        for (int i = 0; i < h.s.geometry.nx; ++i)
            if (h.record.cells.how(i, j) == sheet::Touched::at_left_edge) {
                REQUIRE_FALSE(first.touched(i, j));
                int old = 0;
                for (auto [di, dj] : beside) old += h.s.inside(i + di, j + dj) && first.touched(i + di, j + dj);
                REQUIRE(old > 0);
            }
}
