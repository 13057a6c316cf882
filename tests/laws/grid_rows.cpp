#include <omp.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <new>
#include <stdexcept>
#include <string>

#include "grid/field.h"
#include "grid/rows.h"
#include "grid/tiles.h"

using namespace tidemark;

TEST_CASE("a sum over the sheet is the same for any number of threads", "[law][grid]") {
    constexpr int nx = 301, ny = 203;
    grid::Field<float> field(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) field(i, j) = std::sin(static_cast<float>(i * 131 + j * 17)) * 1e6f + 1e-3f;
    const auto sum = [&] {
        return grid::sum_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
            double row = 0;
            for (int i = 0; i < nx; ++i) row += field(i, j);
            return row;
        });
    };
    const int before = omp_get_max_threads();
    omp_set_num_threads(1);
    const double one = sum();
    for (const int threads : {2, 3, 4}) {
        omp_set_num_threads(threads);
        CHECK(sum() == one);
    }
    omp_set_num_threads(before);
    CHECK(one != 0);
}

TEST_CASE("what a row throws comes out of the loop, and of several the first row's", "[law][grid]") {
    const int before = omp_get_max_threads();
    for (const int threads : {1, 2})
        for (const long cells : {1L, 1'000'000L}) { // on the calling thread, and shared out
            omp_set_num_threads(threads);
            const auto row = [](int j) -> double {
                if (j == 700) throw std::bad_alloc();
                if (j >= 300 && j % 100 == 0) throw std::runtime_error(std::to_string(j));
                return j;
            };
            CHECK_THROWS_WITH(grid::for_rows(1000, cells, row), "300");
            CHECK_THROWS_WITH(grid::sum_rows(1000, cells, row), "300");
            CHECK_THROWS_AS(grid::for_rows(1000, cells, [](int j) { if (j == 999) throw std::bad_alloc(); }), std::bad_alloc);
        }
    omp_set_num_threads(before);
}

TEST_CASE("every row is visited once", "[law][grid]") {
    std::vector<int> visits(1000);
    grid::for_rows(1000, 1'000'000, [&](int j) { ++visits[static_cast<std::size_t>(j)]; });
    CHECK(visits == std::vector<int>(1000, 1));
}

TEST_CASE("a field keeps its ghosts apart from its neighbours' rows", "[law][grid]") {
    grid::Field<float> field(33, 5, 1.0f);
    for (int j = -1; j <= 5; ++j) field(-1, j) = field(33, j) = -7.0f;
    for (int i = 0; i < 33; ++i) field(i, -1) = field(i, 5) = -7.0f;
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 33; ++i) CHECK(field(i, j) == 1.0f);
    CHECK(reinterpret_cast<std::uintptr_t>(field.row(3)) % 64 == 0);
    CHECK(field.stride() / 16 % 2 == 1);
    grid::Field<float> copy = field;
    copy(3, 3) = 5;
    CHECK(field(3, 3) == 1.0f);
    CHECK(copy(33, 2) == -7.0f);
}

TEST_CASE("spans cover the awake tiles and stop at the sheet's edge", "[law][grid]") {
    grid::TileSet tiles(100, 70);
    CHECK_FALSE(tiles.any());
    tiles.wake_cell(0, 0);
    tiles.wake_cell(35, 3);
    tiles.wake_cell(99, 69);
    tiles.rebuild();
    REQUIRE(tiles.spans(5).size() == 1); // neighbours become one span
    CHECK(tiles.spans(5)[0].begin == 0);
    CHECK(tiles.spans(5)[0].end == 64);
    CHECK(tiles.spans(40).empty());
    REQUIRE(tiles.spans(69).size() == 1);
    CHECK(tiles.spans(69)[0].begin == 96);
    CHECK(tiles.spans(69)[0].end == 100);
    CHECK(tiles.cells() == 64 * 32 + 4 * 6);
    tiles.set_all(true);
    tiles.rebuild();
    CHECK(tiles.cells() == 100 * 70);
}

TEST_CASE("a copy of a field without memory has none", "[law][grid]") {
    grid::Field<float> filled(5, 4, 1.0f);
    const grid::Field<float> none;
    filled = none;
    CHECK(filled.empty());
    CHECK((filled.nx() == 0 && filled.ny() == 0));
}
