// Outlines of masses: every border once, joined where they meet, a drawn line and no staircase.
#include "reference/crop.h"
#include "reference/outline.h"
#include "reference/outline.h"
#include "reference_pictures.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

/// Only what outlines look at: which mass each pixel belongs to.
Masses masses_by(int width, int height, const std::function<int(double, double)>& mass_at) {
    Masses m{width, height, {}, {}};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) m.of.push_back(mass_at(x + 0.5, y + 0.5));
    return m;
}

/// Blots of four kinds, with borders, rings, holes and corners where four meet.
Masses blots(int width, int height) {
    return masses_by(width, height, [](double x, double y) {
        const double a = std::sin(x / 5) + std::cos(y / 4 + x / 11), b = std::sin(y / 6 - x / 9);
        const double spot = std::hypot(x - 70, y - 55); // within a mass of its own, so that there is a ring
        return spot < 3 ? 5 : spot < 6 ? 4 : (a > 0.2) + 2 * (b > 0.1);
    });
}

constexpr Tracing every_side{0, 0};

double length(const Outline& line) {
    double sum = 0;
    const std::size_t n = line.points.size();
    for (std::size_t k = line.ring ? 0 : 1; k < n; ++k) {
        const PointMm &a = line.points[(k + n - 1) % n], &b = line.points[k];
        sum += std::hypot(b.x - a.x, b.y - a.y);
    }
    return sum;
}

double distance_to(const Outline& line, const PointMm& p) {
    double least = 1e9;
    const std::size_t n = line.points.size();
    for (std::size_t k = line.ring ? 0 : 1; k < n; ++k) {
        const PointMm &a = line.points[(k + n - 1) % n], &b = line.points[k];
        const double dx = b.x - a.x, dy = b.y - a.y, l2 = dx * dx + dy * dy;
        const double t = l2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / l2, 0.0, 1.0) : 0;
        least = std::min(least, std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
    }
    return least;
}

} // namespace

TEST_CASE("two halves have one straight line between them, where they part", "[law][reference]") {
    const auto upright = outlines(masses_by(100, 60, [](double x, double) { return x < 40; }), 200, 120);
    REQUIRE(upright.size() == 1);
    CHECK_FALSE(upright[0].ring);
    CHECK(upright[0].points == std::vector<PointMm>{{80, 0}, {80, 120}});
    const auto level = outlines(masses_by(100, 60, [](double, double y) { return y < 15; }), 200, 120);
    REQUIRE(level.size() == 1);
    CHECK(level[0].points == std::vector<PointMm>{{0, 30}, {200, 30}});
    CHECK(outlines(masses_by(100, 60, [](double, double) { return 0; }), 200, 120).empty());
}

TEST_CASE("a disc has one ring around it, no staircase", "[law][reference]") {
    // 4 pixels a mm; along a staircase the way round would be 8 r instead of 2 pi r.
    const double r = 20;
    const auto disc = outlines(
        masses_by(240, 200, [&](double x, double y) { return std::hypot(x / 4 - 30, y / 4 - 25) < r; }), 60, 50);
    REQUIRE(disc.size() == 1);
    CHECK(disc[0].ring);
    CHECK(length(disc[0]) == Approx(2 * std::numbers::pi * r).epsilon(0.01));
    for (const PointMm& p : disc[0].points) CHECK(std::hypot(p.x - 30, p.y - 25) == Approx(r).margin(0.15));
    CHECK(disc[0].points.size() < 150); // of a thousand sides
}

TEST_CASE("a slope is drawn as a slope", "[law][reference]") {
    const auto lines = outlines(masses_by(160, 160, [](double x, double y) { return y < 0.5 * x + 20; }), 40, 40);
    REQUIRE(lines.size() == 1);
    CHECK(length(lines[0]) == Approx(std::hypot(40, 20)).epsilon(0.01));
    for (const PointMm& p : lines[0].points) CHECK(p.y == Approx(0.5 * p.x + 5).margin(0.2));
}

TEST_CASE("every side between two masses is traced once", "[law][reference]") {
    const Masses m = blots(90, 70);
    int sides = 0;
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x)
            sides += (x > 0 && m.at(x, y) != m.at(x - 1, y)) + (y > 0 && m.at(x, y) != m.at(x, y - 1));
    std::map<std::pair<double, double>, int> middles; // a side's middle has one whole and one half coordinate
    int rings = 0;
    for (const Outline& line : outlines(m, 90, 70, every_side)) {
        rings += line.ring;
        const std::size_t end = line.ring ? 0 : 1;
        for (std::size_t k = end; k + end < line.points.size(); ++k) ++middles[{line.points[k].x, line.points[k].y}];
    }
    CHECK(static_cast<int>(middles.size()) == sides);
    CHECK(rings > 0);
    for (const auto& [middle, times] : middles) {
        CHECK(times == 1);
        const auto [x, y] = middle;
        const bool upright = x == std::floor(x);
        const int px = static_cast<int>(x), py = static_cast<int>(y);
        CHECK((upright ? m.at(px - 1, py) != m.at(px, py) : m.at(px, py - 1) != m.at(px, py)));
    }
}

TEST_CASE("lines that met still meet after smoothing, and end there or at the edge", "[law][reference]") {
    const Masses m = blots(90, 70);
    std::map<std::pair<double, double>, int> ends;
    for (const Outline& line : outlines(m, 90, 70, {1.5, 0.5}))
        if (!line.ring)
            for (const PointMm& p : {line.points.front(), line.points.back()}) ++ends[{p.x, p.y}];
    int meetings = 0;
    for (const auto& [at, count] : ends) {
        const auto [x, y] = at;
        const bool edge = x == 0 || y == 0 || x == 90 || y == 70;
        CHECK((edge ? count == 1 : count == 3 || count == 4));
        meetings += !edge;
    }
    CHECK(meetings > 10);
    const auto three = outlines(masses_by(40, 40, [](double x, double y) { return y < 20 ? 0 : x < 20 ? 1 : 2; }), 40, 40);
    REQUIRE(three.size() == 3);
    for (const Outline& line : three)
        CHECK((line.points.front() == PointMm{20, 20} || line.points.back() == PointMm{20, 20}));
}

TEST_CASE("points are left out within the tolerance, and no further", "[law][reference]") {
    const auto whole = outlines(blots(90, 70), 90, 70, every_side);
    for (const double tolerance : {0.3, 1.0, 3.0}) {
        std::size_t before = 0, after = 0;
        double most = 0;
        for (const Outline& line : whole) {
            const Outline fewer = simplified(line, tolerance);
            before += line.points.size(), after += fewer.points.size();
            for (const PointMm& p : line.points) most = std::max(most, distance_to(fewer, p));
        }
        INFO("tolerance " << tolerance << ", furthest " << most);
        CHECK(most <= tolerance + 1e-9);
        CHECK(most > 0.5 * tolerance);
        CHECK(after < (tolerance < 0.5 ? 0.9 : 0.5) * static_cast<double>(before));
    }
}

TEST_CASE("the middle of a picture is cut out in the sheet's proportions, and what falls away is told",
          "[law][reference]") {
    const Crop wide = central_crop(3000, 1000, 200, 100);
    CHECK(wide.x == 500);
    CHECK(wide.width == 2000);
    CHECK(wide.height == 1000);
    const FallsAway away = falls_away(wide, 3000, 1000, 200);
    CHECK(away.left_mm == Approx(50));
    CHECK(away.right_mm == Approx(50));
    CHECK(away.top_mm == 0);
    CHECK(away.share == Approx(1 / 3.0));
    const Crop tall = central_crop(1000, 3000, 100, 200);
    CHECK(tall.y == 500);
    CHECK(tall.height == 2000);
    CHECK(falls_away({0, 0, 1000, 500}, 1000, 1000, 100).bottom_mm == Approx(50));

    grid::Picture picture{60, 40, {}};
    for (int y = 0; y < 40; ++y)
        for (int x = 0; x < 60; ++x)
            for (const int code : {x, y, 0}) picture.rgb.push_back(static_cast<std::uint8_t>(code));
    const grid::Picture part = cut_out(picture, {100, 40, 400, 200}, 600, 400); // read at a tenth of its size
    CHECK(part.width == 40);
    CHECK(part.height == 20);
    CHECK(part.at(0, 0)[0] == 10);
    CHECK(part.at(0, 0)[1] == 4);
    CHECK(part.at(39, 19)[0] == 49);
    CHECK(cut_out(picture, {599, 399, 1, 1}, 600, 400).width == 1);
}
