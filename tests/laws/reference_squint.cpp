// What half-closed eyes see, on pictures whose answer is known.
#include "grid/problem.h"
#include "reference/simplify.h"
#include "reference/squint.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

/// A step from 80 to 30 L* at x = 60, with a bar of 50 L* and `bar` pixels in the light, and seeded noise.
ValueMap step_with_bar(int bar, double noise) {
    ValueMap map{120, 90, std::vector<float>(120 * 90)};
    std::mt19937 random(5);
    for (int y = 0; y < 90; ++y)
        for (int x = 0; x < 120; ++x) {
            const double l = x >= 60 ? 30 : x >= 20 && x < 20 + bar && y > 10 && y < 80 ? 50 : 80;
            map.lstar[y * 120 + x] = static_cast<float>(l + noise * (static_cast<double>(random() % 2001) / 1000 - 1));
        }
    return map;
}

double edge_at(const ValueMap& map, int y, float level) { // from light to dark, between pixels
    int x = 45;
    while (map.at(x + 1, y) > level)
        ++x;
    return x + (map.at(x, y) - level) / (map.at(x, y) - map.at(x + 1, y));
}

grid::Picture as_picture(const Groups& g) {
    grid::Picture p = tests::flat_picture(g.width, g.height, 0, 0, 0);
    for (std::size_t k = 0; k < g.group.size(); ++k)
        std::fill_n(p.rgb.data() + 3 * k, 3, static_cast<std::uint8_t>(std::lround(2.4 * g.mean_lstar[g.group[k]])));
    return p;
}

} // namespace

TEST_CASE("simplifying takes what is narrower than its width and leaves edges in their place", "[law][reference]") {
    const ValueMap seen = simplified(step_with_bar(4, 6), 12);
    for (const int y : {30, 45, 60}) {
        CHECK(edge_at(seen, y, 55) == Approx(59.5).margin(0.5));
        CHECK(seen.at(66, y) - 30 < 4); // not blurred: all of the step within six pixels to either side
        CHECK(80 - seen.at(53, y) < 6);
        CHECK(seen.at(21, y) > 68); // the bar, of which 30 L* were there
    }
    const ValueMap wide = simplified(step_with_bar(26, 6), 12);
    CHECK(wide.at(33, 45) == Approx(50).margin(4)); // twice as wide: it stays
    const ValueMap flat{50, 40, std::vector<float>(50 * 40, 61.5f)};
    CHECK(simplified(flat, 9).lstar == flat.lstar);
    CHECK(simplified(flat, 0).lstar == flat.lstar);
}

TEST_CASE("a mirrored map is simplified to the mirrored result", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(150, 110, 30));
    ValueMap other = map;
    for (int y = 0; y < map.height; ++y)
        std::reverse(other.lstar.begin() + y * map.width, other.lstar.begin() + (y + 1) * map.width);
    const ValueMap a = simplified(map, 7), b = simplified(other, 7);
    for (int y = 0; y < map.height; ++y)
        for (int x = 0; x < map.width; ++x)
            REQUIRE(a.at(x, y) == b.at(map.width - 1 - x, y));
}

TEST_CASE("squinting at a squinted picture changes next to nothing", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(400, 280, 25));
    const Squint how{.simplify_mm = 2};
    const SquintResult once = squint(map, 2.0, 3, how);
    const SquintResult twice = squint(value_map(as_picture(once.groups)), 2.0, 3, how);
    std::size_t differ = 0;
    for (std::size_t p = 0; p < map.lstar.size(); ++p)
        differ += once.groups.group[p] != twice.groups.group[p];
    CHECK(static_cast<double>(differ) < 0.01 * static_cast<double>(map.lstar.size()));
}

TEST_CASE("a picture and its copy of double size have the same masses", "[law][reference]") {
    const grid::Picture small = tests::landscape(300, 200, 10);
    const grid::Picture large = grid::resized(small, 600, 400);
    const Squint how{.simplify_mm = 2};
    const SquintResult a = squint(value_map(small), 2.0, 3, how), b = squint(value_map(large), 4.0, 3, how);
    REQUIRE(a.masses.list.size() == b.masses.list.size());
    for (std::size_t k = 0; k < a.masses.list.size(); ++k) {
        const auto &x = a.masses.list[k], &y = b.masses.list[k];
        CHECK(x.group == y.group);
        CHECK(std::abs(static_cast<double>(y.pixels) / 4 - static_cast<double>(x.pixels)) < 0.01 * 300 * 200);
    }
}

TEST_CASE("a little noise leaves the numbers of large masses alone", "[law][reference]") {
    const auto numbers = [](int noise) { return squint(value_map(tests::landscape(300, 200, noise)), 2.0, 3, {.simplify_mm = 2}).masses; };
    const Masses a = numbers(0), b = numbers(3); // ±3 codes: some 1 L*
    REQUIRE(a.list.size() == b.list.size());
    int differ = 0;
    for (std::size_t p = 0; p < a.of.size(); ++p)
        differ += a.of[p] != b.of[p];
    CHECK(differ < 0.02 * 300 * 200);
}

TEST_CASE("a thin post goes with the crumbs, and stays when it is asked to", "[law][reference]") {
    ValueMap map{240, 160, std::vector<float>(240 * 160, 85.0f)};
    for (int y = 90; y < 160; ++y)
        std::fill_n(map.lstar.begin() + y * 240, 240, 30.0f);
    for (int y = 20; y < 90; ++y)
        std::fill_n(map.lstar.begin() + y * 240 + 100, 3, 30.0f); // 0.75 mm wide, 17 mm high, stands on the dark
    std::fill_n(map.lstar.begin() + 40 * 240 + 180, 4, 30.0f);    // a speck
    const Squint plain{.simplify_mm = 2};
    Squint thin = plain;
    thin.keep_thin = true;
    CHECK(squint(map, 4.0, 2, plain).groups.at(101, 50) == 1);
    const SquintResult kept = squint(map, 4.0, 2, thin);
    for (int y = 22; y < 88; ++y)
        CHECK(kept.groups.at(101, y) == 0);
    CHECK(kept.groups.at(181, 40) == 1);
    CHECK(kept.masses.at(101, 50) == kept.masses.at(101, 120)); // one mass with what it stands on
}

TEST_CASE("a light that is pointed at stays, however small; a point in the dark is refused", "[law][reference]") {
    ValueMap map{240, 160, std::vector<float>(240 * 160, 30.0f)};
    for (int y = 60; y < 66; ++y)
        std::fill_n(map.lstar.begin() + y * 240 + 100, 6, 90.0f); // 1.5 mm square
    for (int y = 0; y < 40; ++y)
        std::fill_n(map.lstar.begin() + y * 240, 240, 90.0f);
    Squint how{.simplify_mm = 2};
    CHECK(squint(map, 4.0, 2, how).groups.at(102, 62) == 0);
    how.keep = {{25.6, 15.7}};
    const SquintResult kept = squint(map, 4.0, 2, how);
    CHECK(kept.groups.at(102, 62) == 1);
    CHECK(kept.masses.list.size() == 3);
    how.keep = {{25.6, 30}};
    CHECK_THROWS_WITH(squint(map, 4.0, 2, how), Catch::Contains("no light lies there"));
    how.keep = {{100, 10}};
    CHECK_THROWS_WITH(squint(map, 4.0, 2, how), Catch::Contains("beyond the sheet"));
}

TEST_CASE("a light in a corner may be pointed at by the corner itself", "[law][reference]") {
    ValueMap map{240, 160, std::vector<float>(240 * 160, 30.0f)};
    for (const int y : {0, 1, 2, 3, 156, 157, 158, 159})
        for (const int x : {0, 1, 2, 3, 236, 237, 238, 239}) map.lstar[y * 240 + x] = 90;
    for (int y = 40; y < 100; ++y) std::fill_n(map.lstar.begin() + y * 240 + 60, 100, 90.0f);
    for (const double x_mm : {0.0, 60.0})
        for (const double y_mm : {0.0, 40.0}) {
            INFO(x_mm << ", " << y_mm);
            Squint how{.simplify_mm = 2};
            how.keep = {{x_mm, y_mm}};
            CHECK(squint(map, 4.0, 2, how).groups.at(x_mm > 0 ? 238 : 1, y_mm > 0 ? 158 : 1) == 1);
        }
    Squint how{.simplify_mm = 2};
    for (const Point& beyond : {Point{60.2, 10}, {10, 40.2}, {-0.01, 10}, {10, -0.01}}) {
        how.keep = {beyond};
        CHECK_THROWS_WITH(squint(map, 4.0, 2, how), Catch::Contains("beyond the sheet; allowed: 0 to 60, 0 to 40 mm"));
    }
}

TEST_CASE("cuts set by hand are the groups' cuts", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(150, 110, 12));
    const SquintResult s = squint(map, 2.0, 3, {.simplify_mm = 1, .thresholds = {35, 70}});
    CHECK(s.groups.thresholds == std::vector<float>{35, 70});
    CHECK(s.groups.count == 3);
}
