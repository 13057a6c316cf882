#include "hand/paths.h"
#include "support/shortest_ways.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace tidemark;
using hand::Cell;

namespace {

/// Walls with gaps between corridors, in a field of 40 × 30.
grid::Field<float> labyrinth() {
    grid::Field<float> cover(40, 30, 1.0f);
    for (int i = 6; i < 40; i += 7)
        for (int j = 0; j < 30; ++j)
            if (i / 7 % 2 ? j < 26 : j > 3)
                cover(i, j) = cover(i - 1, j) = 0;
    return cover;
}

grid::Field<float> disc(int n, double radius) {
    grid::Field<float> cover(n, n);
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i)
            cover(i, j) = std::hypot(i + 0.5 - 0.5 * n, j + 0.5 - 0.5 * n) < radius ? 1.0f : 0.0f;
    return cover;
}

} // namespace

TEST_CASE("a hand that starts at a point takes cells by the shortest way inside the shape", "[law][hand]") {
    const auto cover = labyrinth();
    const auto order = hand::cells_from(cover, 1.0, 1.5, 28.5);
    const auto way = scene::shortest_ways(cover, {1, 28});
    std::size_t cells = 0;
    for (int j = 0; j < 30; ++j)
        for (int i = 0; i < 40; ++i)
            cells += cover(i, j) > 0;
    REQUIRE(order.size() == cells);
    CHECK(way(order.back().i, order.back().j) > 90); // round all walls
    for (std::size_t k = 1; k < order.size(); ++k)
        REQUIRE(way(order[k].i, order[k].j) >= way(order[k - 1].i, order[k - 1].j) - 1e-3f);
}

TEST_CASE("an order picture is painted from dark to light, equals in rows", "[law][hand]") {
    grid::GreyPicture order{.width = 2, .height = 1, .value = {0.8f, 0.1f}};
    const grid::Field<float> cover(20, 12, 1.0f);
    const auto cells = hand::cells_in_order(cover, 6e-3, order); // rows two cells high
    REQUIRE(cells.size() == 240);
    for (std::size_t k = 0; k < 120; ++k) {
        CHECK(cells[k].i >= 10);
        CHECK(cells[120 + k].i < 10);
    }
    for (std::size_t k = 1; k < 120; ++k)
        CHECK(cells[k].j / 2 >= cells[k - 1].j / 2);
    CHECK(cells[0].i == 10);
    CHECK(cells[20].i == 19); // the second row comes back
}

TEST_CASE("strokes paint what they pass, when they pass it, and nothing else", "[law][hand]") {
    const grid::Field<float> cover(60, 40, 1.0f);
    const std::vector<plan::Stroke> strokes{{{0.010, 0.010}, {0.050, 0.010}}, {{0.020, 0.005}, {0.020, 0.035}}};
    CHECK(hand::length_m(strokes) == Approx(0.070));
    grid::Field<double> at(60, 40, -1.0);
    double last = 0;
    for (const auto& p : hand::cells_along(cover, 1e-3, strokes, 4e-3)) {
        CHECK(at(p.cell.i, p.cell.j) == -1); // once
        at(p.cell.i, p.cell.j) = p.at_m;
        CHECK(p.at_m >= last);
        last = p.at_m;
    }
    for (int j = 0; j < 40; ++j)
        for (int i = 0; i < 60; ++i) {
            const double x = i + 0.5, y = j + 0.5, x1 = std::clamp(x, 10.0, 50.0), y2 = std::clamp(y, 5.0, 35.0);
            double expected = -1;
            if (std::hypot(x - x1, y - 10) <= 4)
                expected = x1 - 10;
            else if (std::hypot(x - 20, y - y2) <= 4)
                expected = 40 + y2 - 5;
            REQUIRE(1e3 * at(i, j) == Approx(expected < 0 ? -1e3 : expected).margin(1e-6));
        }
}

TEST_CASE("round the bend of a stroke a cell is painted from the nearer leg", "[law][hand]") {
    const grid::Field<float> cover(40, 40, 1.0f);
    const std::vector<plan::Stroke> bend{{{0.010, 0.010}, {0.030, 0.010}, {0.030, 0.030}}};
    std::size_t passed = 0;
    for (const auto& p : hand::cells_along(cover, 1e-3, bend, 5e-3)) {
        const double x = p.cell.i + 0.5, y = p.cell.j + 0.5, along = std::clamp(x, 10.0, 30.0), down = std::clamp(y, 10.0, 30.0);
        const double first = std::hypot(x - along, y - 10), second = std::hypot(x - 30, y - down);
        ++passed;
        if (std::abs(first - second) > 1e-9)
            REQUIRE(1e3 * p.at_m == Approx(first < second ? along - 10 : 20 + down - 10).margin(1e-6));
    }
    CHECK(passed == Approx(2 * 20 * 10 - 25 + 3.1416 * 25 * 1.25).margin(12)); // legs, their ends and the outer corner
}

TEST_CASE("a boundary is followed in one go, and is as long as it is", "[law][hand]") {
    const auto line = hand::boundary_of(disc(200, 80), 1.0, nullptr, 0);
    // Along faces' middles a line at 22.5 degrees is 8 % too long, one along the grid or at 45 degrees is exact.
    CHECK(line.back().at_m > 2 * 3.14159 * 80);
    CHECK(line.back().at_m < 1.09 * 2 * 3.14159 * 80);
    for (std::size_t k = 1; k < line.size(); ++k)
        REQUIRE(std::hypot(line[k].x_m - line[k - 1].x_m, line[k].y_m - line[k - 1].y_m) <= 1.0 + 1e-12);

    // Two pieces, each from one end to the other; the sheet's border is none.
    grid::Field<float> band(50, 30);
    for (int j = 10; j < 20; ++j)
        for (int i = 0; i < 50; ++i)
            band(i, j) = 1;
    const auto two = hand::boundary_of(band, 1.0, nullptr, 0);
    REQUIRE(two.size() == 100);
    CHECK(two.back().at_m == Approx(98));
    CHECK(std::abs(two[49].x_m - two[0].x_m) == 49);

    grid::Field<float> right(50, 30); // beside the lower line, from the middle on
    for (int j = 20; j < 30; ++j)
        for (int i = 25; i < 50; ++i)
            right(i, j) = 1;
    for (const auto& p : hand::boundary_of(band, 1.0, &right, 2.0)) {
        CHECK(p.y_m == 20);
        CHECK(p.x_m > 22);
    }
    CHECK(hand::boundary_of(band, 1.0, &right, 2.0).size() >= 25);
}
