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

namespace {

/// Light above, dark below, and a pale grey patch across the border, `rows` of it in the light.
ValueMap patched(int rows, int width, int down_to = 26) {
    grid::Picture p = tests::flat_picture(60, 40, 250, 250, 250);
    for (int y = 20; y < 40; ++y)
        std::fill_n(p.at(0, y), 180, std::uint8_t{30});
    for (int y = 20 - rows; y < down_to; ++y)
        std::fill_n(p.at(20, y), 3 * width, std::uint8_t{180});
    return value_map(p);
}

} // namespace

TEST_CASE("a small mass joins the neighbour across the weakest boundary, and the joinings can be played again",
          "[law][reference]") {
    const ValueMap map = patched(3, 10); // a third of its outline in the light, by far the weaker boundary
    const Groups g = group_values(map, 3);
    const Masses all = find_masses(g, map);
    std::vector<Joined> record;
    const Masses m = merged(all, map, 200, {}, &record);
    REQUIRE(m.list.size() == 2);
    CHECK(m.at(24, 24) == m.at(0, 0));
    const Groups after = groups_of(m, map, g);
    CHECK(after.pixels == std::vector<std::int64_t>{60 * 20 - 60, 0, 60 * 20 + 60});
    CHECK(after.thresholds == g.thresholds);
    REQUIRE(record.size() == 1);
    CHECK(all.list[record[0].mass].group == 1);
    CHECK(record[0].pixels == 90);
    CHECK(record[0].length == 10 + 2 * 3);
    CHECK(record[0].contrast_lstar == Approx(map.at(0, 0) - map.at(24, 24)).margin(0.01));
    CHECK(merged_as(all, map, record).of == m.of);
    CHECK(merged_as(all, map, {}).of == all.of);

    const ValueMap deep = patched(0, 3, 38); // a post in the dark whose head touches the light: 3 of 42 sides, the weakest
    const Masses left = merged(find_masses(group_values(deep, 3), deep), deep, 100);
    REQUIRE(left.list.size() == 2);
    CHECK(left.at(21, 25) == left.at(0, 39));
}

TEST_CASE("merging keeps areas, and a record cut short keeps what came after it", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(160, 120, 40));
    const Masses all = find_masses(group_values(map, 3), map);
    std::vector<Joined> record;
    const Masses m = merged(all, map, 100, {}, &record);
    REQUIRE(record.size() > 50);
    CHECK(merged_as(all, map, record).of == m.of);
    const auto half = merged_as(all, map, std::span(record).first(record.size() / 2));
    CHECK(half.list.size() > m.list.size());
    CHECK(half.list.size() < all.list.size());
    for (const Masses* any : {&all, &half, &m}) {
        std::int64_t pixels = 0;
        for (const Mass& mass : any->list)
            pixels += mass.pixels;
        CHECK(pixels == 160 * 120);
    }
    std::vector<std::uint8_t> stays(all.list.size(), 0);
    int small = 0;
    for (std::size_t k = 0; k < all.list.size(); ++k)
        if (all.list[k].pixels < 5 && small < 3)
            stays[k] = 1, ++small;
    const Masses kept = merged(all, map, 100, stays);
    for (std::size_t k = 0; k < all.list.size(); ++k)
        if (stays[k])
            for (std::size_t p = 0; p < all.of.size(); ++p)
                if (all.of[p] == static_cast<int>(k))
                    CHECK(kept.list[kept.of[p]].group == all.list[k].group);
}

TEST_CASE("regions and their areas are those of a flood that fills them one by one", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(90, 70, 60));
    const Groups g = group_values(map, 4);
    const Masses m = find_masses(g, map);
    std::vector<int> seen(m.of.size(), -1);
    int regions = 0;
    for (int y = 0; y < 70; ++y)
        for (int x = 0; x < 90; ++x) {
            if (seen[y * 90 + x] >= 0)
                continue;
            std::vector<std::pair<int, int>> todo{{x, y}};
            seen[y * 90 + x] = regions;
            std::int64_t area = 0;
            while (!todo.empty()) {
                const auto [i, j] = todo.back();
                todo.pop_back(), ++area;
                REQUIRE(m.at(i, j) == m.at(x, y));
                for (const auto& [a, b] : {std::pair{i - 1, j}, {i + 1, j}, {i, j - 1}, {i, j + 1}})
                    if (a >= 0 && b >= 0 && a < 90 && b < 70 && g.at(a, b) == g.at(x, y) && seen[b * 90 + a] < 0)
                        seen[b * 90 + a] = regions, todo.emplace_back(a, b);
            }
            REQUIRE(m.list[m.at(x, y)].pixels == area);
            ++regions;
        }
    CHECK(regions == static_cast<int>(m.list.size()));
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
