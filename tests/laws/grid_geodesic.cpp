// How far it is inside a mask, against ways found the slow way.
#include "support/shortest_ways.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

using namespace tidemark;
using grid::Cell;
using grid::Geodesic;

namespace {

grid::Field<float> speckled(int nx, int ny, unsigned seed, unsigned open_of_ten) {
    std::mt19937 random(seed);
    grid::Field<float> cover(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            cover(i, j) = random() % 10 < open_of_ten ? 1.0f : 0.0f;
    return cover;
}

Geodesic inside(const grid::Field<float>& cover) {
    return {cover.nx(), cover.ny(), [&](int i, int j) { return cover(i, j) > 0; }};
}

} // namespace

TEST_CASE("distances inside a mask are those of the shortest ways, taken nearest first", "[law][grid]") {
    for (unsigned seed = 1; seed <= 24; ++seed) {
        const int nx = 9 + static_cast<int>(seed % 5) * 6, ny = 8 + static_cast<int>(seed % 3) * 9;
        grid::Field<float> cover = speckled(nx, ny, seed, 5 + seed % 5);
        const Cell start{static_cast<int>(seed) % nx, static_cast<int>(seed * 7) % ny};
        cover(start.i, start.j) = 1;
        Geodesic in = inside(cover);
        const std::vector<Cell> order = in.spread({&start, 1});
        const auto way = scene::shortest_ways(cover, start);
        std::size_t reached = 0;
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i) {
                INFO("seed " << seed << ", cell " << i << ", " << j);
                const bool any = way(i, j) != Geodesic::unreached;
                reached += any;
                REQUIRE(in.reached({i, j}) == any);
                if (any)
                    REQUIRE(in.distance({i, j}) == Approx(way(i, j)).margin(1e-3));
            }
        REQUIRE(order.size() == reached);
        for (std::size_t k = 1; k < order.size(); ++k)
            REQUIRE(in.distance(order[k]) >= in.distance(order[k - 1]));
        // Back along the way: a hop at a time, as long as the distance says.
        double length = 0;
        Cell c = order.back();
        for (; !(c == start); c = in.before(c)) {
            const Cell b = in.before(c);
            length += std::hypot(c.i - b.i, c.j - b.j);
        }
        CHECK(length == Approx(in.distance(order.back())).epsilon(1e-5));
    }
}

TEST_CASE("a straight way is never too short, and 2.8 % too long at most", "[law][grid]") {
    grid::Field<float> cover(81, 81, 1.0f);
    Geodesic in = inside(cover);
    const Cell middle{40, 40};
    in.spread({&middle, 1});
    double longest = 0;
    for (int j = 0; j < 81; ++j)
        for (int i = 0; i < 81; ++i)
            if (const double straight = std::hypot(i - 40, j - 40); straight > 0) {
                REQUIRE(in.distance({i, j}) >= straight * (1 - 1e-6));
                longest = std::max(longest, in.distance({i, j}) / straight);
            }
    CHECK(longest <= 1.0276);
    CHECK(longest > 1.02); // and the bound is not idle
}

TEST_CASE("a spread stops where it is told to, and a later one leaves alone what is reached", "[law][grid]") {
    grid::Field<float> cover(30, 5, 1.0f);
    Geodesic in = inside(cover);
    const Cell left{0, 2}, right{29, 2};
    for (const Cell& c : in.spread({&left, 1}, 6.0f)) CHECK(in.distance(c) <= 6);
    CHECK(in.reached({6, 2}));
    CHECK(!in.reached({7, 2}));
    const float before = in.distance({6, 2});
    const auto rest = in.spread({&right, 1});
    for (const Cell& c : rest) CHECK(c.i >= 5);
    CHECK(in.distance({6, 2}) == before);
    CHECK(in.distance({7, 2}) == 22);
    CHECK(in.spread({&right, 1}).empty());
}

TEST_CASE("many starts share the mask among them, each cell to its nearest", "[law][grid]") {
    const auto cover = speckled(40, 30, 5, 9);
    const std::vector<Cell> starts{{3, 4}, {35, 6}, {20, 28}};
    Geodesic in = inside(cover);
    const auto order = in.spread(starts);
    grid::Field<float> ways[3];
    for (int s = 0; s < 3; ++s) {
        auto with = cover;
        for (const Cell& c : starts) with(c.i, c.j) = cover(c.i, c.j) > 0 || c == starts[s];
        ways[s] = scene::shortest_ways(with, starts[s]);
    }
    for (const Cell& c : order)
        CHECK(in.distance(c) == Approx(std::min({ways[0](c.i, c.j), ways[1](c.i, c.j), ways[2](c.i, c.j)})).margin(1e-3));
}
