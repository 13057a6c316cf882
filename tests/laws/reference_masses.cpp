/// Masses: what holds for any picture.
#include "reference/squint.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>
#include <numeric>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

void check_partition(const Masses& m) {
    std::vector<std::int64_t> counted(m.list.size(), 0);
    for (const int i : m.of) {
        REQUIRE(i >= 0);
        REQUIRE(i < static_cast<int>(m.list.size()));
        ++counted[i];
    }
    for (std::size_t i = 0; i < m.list.size(); ++i) {
        CHECK(counted[i] == m.list[i].pixels);
        for (const Border& b : m.list[i].neighbours) { // seen alike from both sides, never within one group
            const auto& back = m.list[b.mass].neighbours;
            const auto same = std::find_if(back.begin(), back.end(),
                                           [&](const Border& c) { return c.mass == static_cast<int>(i); });
            REQUIRE(same != back.end());
            CHECK(same->length == b.length);
            CHECK(m.list[b.mass].group != m.list[i].group);
        }
    }
}

} // namespace

TEST_CASE("masses are joined along sides, numbered light to dark and large to small", "[law][reference]") {
    const char* rows[] = {"wwwbb", //
                          "wbbww", // the lower right white touches the upper left one nowhere, the blacks at a corner
                          "bbwww"}; // of (3, 0) and (2, 1)
    grid::Picture p = tests::flat_picture(5, 3, 0, 0, 0);
    for (int y = 0; y < 3; ++y)
        for (int x = 0; x < 5; ++x)
            if (rows[y][x] == 'w')
                std::fill_n(p.at(x, y), 3, std::uint8_t{255});
    const ValueMap map = value_map(p);
    const Masses m = find_masses(group_values(map, 2), map);
    REQUIRE(m.list.size() == 4);
    check_partition(m);
    const int expected[] = {1, 1, 1, 3, 3, 1, 2, 2, 0, 0, 2, 2, 0, 0, 0};
    CHECK(m.of == std::vector<int>(std::begin(expected), std::end(expected)));
    CHECK(m.list[0].pixels == 5);
    CHECK(m.list[0].centre_x == Approx((3.5 + 4.5 + 2.5 + 3.5 + 4.5) / 5));
    CHECK(m.list[0].centre_y == Approx((1.5 * 2 + 2.5 * 3) / 5));
    CHECK(m.list[1].mean_lstar == Approx(100).margin(0.01));
    REQUIRE(m.list[3].neighbours.size() == 2); // (3,0), (4,0): two sides to the mass below, one to the left
    CHECK(m.list[3].neighbours[0].length == 2);
    CHECK(m.list[3].neighbours[1].length == 1);
}

TEST_CASE("masses of a noisy picture partition it, before and after merging", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(160, 120, 40));
    const Masses all = find_masses(group_values(map, 4), map);
    REQUIRE(all.list.size() > 100); // noise makes crumbs
    check_partition(all);
    std::size_t before = all.list.size();
    for (const int smallest : {2, 10, 60, 400, 1 << 20}) {
        const Masses fewer = merged(all, map, smallest);
        check_partition(fewer);
        CHECK(fewer.list.size() < before);
        before = fewer.list.size();
        for (const Mass& mass : fewer.list)
            if (fewer.list.size() > 1)
                CHECK(mass.pixels >= smallest);
    }
    CHECK(before == 1);
    CHECK(merged(all, map, 0).of == all.of);
}

TEST_CASE("a small mass joins the neighbour with the longest border", "[law][reference]") {
    grid::Picture p = tests::flat_picture(20, 20, 250, 250, 250); // light above, dark below,
    for (int y = 10; y < 20; ++y)
        std::fill_n(p.at(0, y), 60, std::uint8_t{30});
    for (int y = 8; y < 11; ++y)
        std::fill_n(p.at(8, y), 12, std::uint8_t{130}); // and a grey patch, mostly in the light
    const ValueMap map = value_map(p);
    const Groups g = group_values(map, 3);
    const Masses m = merged(find_masses(g, map), map, 20);
    REQUIRE(m.list.size() == 2);
    CHECK(m.at(9, 9) == m.at(0, 0));
    CHECK(m.at(9, 10) == m.at(0, 0));
    const Groups after = groups_of(m, map, g);
    CHECK(after.pixels == std::vector<std::int64_t>{196, 0, 204});
    CHECK(after.thresholds == g.thresholds);
}

TEST_CASE("a mirrored picture gives mirrored masses", "[law][reference]") {
    const grid::Picture p = tests::landscape(150, 110, 12);
    const auto of = [](const grid::Picture& picture) { return squint(value_map(picture), 2.0, 3, {0.3, 1.0, 10.0}); };
    const SquintResult a = of(p), b = of(tests::mirrored(p));
    CHECK(a.groups.thresholds == b.groups.thresholds);
    REQUIRE(a.masses.list.size() == b.masses.list.size());
    REQUIRE(a.masses.list.size() >= 3);
    int differ = 0;
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x)
            differ += a.masses.at(x, y) != b.masses.at(p.width - 1 - x, y);
    CHECK(differ == 0);
    for (std::size_t i = 0; i < a.masses.list.size(); ++i)
        CHECK(a.masses.list[i].centre_x == Approx(p.width - b.masses.list[i].centre_x).margin(1e-9));
}

TEST_CASE("squinting leaves fewer masses, each large enough, at about their places", "[law][reference]") {
    const grid::Picture p = tests::landscape(200, 150, 20);
    const ValueMap map = value_map(p);
    const SquintResult s = squint(map, 1.0, 3, {0.5, 1.0, 60.0});
    CHECK(s.masses.list.size() < find_masses(group_values(map, 3), map).list.size());
    for (const Mass& m : s.masses.list)
        CHECK(m.pixels >= 60);
    CHECK(s.groups.at(75, 95) == 2); // the house, 30 × 30 mm
    CHECK(s.groups.at(150, 140) == 0);
}

TEST_CASE("an edge between light and dark leaves no seam of midtone, and stays in its place", "[law][reference]") {
    grid::Picture p = tests::flat_picture(120, 80, 240, 240, 240); // light, dark from 60 on, and a midtone patch
    for (int y = 0; y < 80; ++y) std::fill_n(p.at(60, y), 180, std::uint8_t{40});
    for (int y = 50; y < 80; ++y) std::fill_n(p.at(10, y), 75, std::uint8_t{130});
    const SquintResult s = squint(value_map(p), 4.0, 3);
    CHECK(s.masses.list.size() == 3);
    for (int y = 0; y < 80; ++y) {
        CHECK(s.groups.at(59, y) == 2);
        CHECK(s.groups.at(60, y) == 0);
    }
    CHECK(s.groups.at(22, 65) == 1);
}

TEST_CASE("a blurred step is 2.563 standard deviations wide from 10 to 90 percent", "[published][reference]") {
    // The Gaussian integral: quantiles of the normal distribution, 2 × 1.28155. Tolerance 2 % at 4 pixels a mm.
    ValueMap step{200, 3, std::vector<float>(600, 0.0f)};
    for (int y = 0; y < 3; ++y)
        for (int x = 100; x < 200; ++x)
            step.lstar[y * 200 + x] = 100;
    const double sigma = 4;
    const ValueMap soft = blurred(step, sigma);
    const auto crosses = [&](float v) {
        int x = 0;
        while (soft.at(x + 1, 1) < v)
            ++x;
        return x + (v - soft.at(x, 1)) / (soft.at(x + 1, 1) - soft.at(x, 1));
    };
    CHECK(crosses(90) - crosses(10) == Approx(2.5631 * sigma).epsilon(0.02));
    CHECK(crosses(50) == Approx(99.5).margin(0.01));
}

TEST_CASE("blurring keeps the mean, adds in squares and keeps a constant", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(160, 120));
    const auto sum = [](const ValueMap& m) { return std::accumulate(m.lstar.begin(), m.lstar.end(), 0.0); };
    CHECK(sum(blurred(map, 7)) == Approx(sum(map)).epsilon(1e-6));
    const ValueMap twice = blurred(blurred(map, 3), 4), once = blurred(map, 5);
    for (int y = 30; y < 90; ++y) // 1e-3 of the range of 100: the kernels are cut at 4 standard deviations
        for (int x = 30; x < 130; ++x)
            REQUIRE(twice.at(x, y) == Approx(once.at(x, y)).margin(0.1));
    const ValueMap flat{30, 20, std::vector<float>(600, 61.3f)};
    CHECK(blurred(flat, 40).lstar == flat.lstar); // a blur wider than the picture
}
