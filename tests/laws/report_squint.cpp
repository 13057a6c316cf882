// What squinting found, drawn: captions can be read, and lie inside what they name.
#include "report/lettering_detail.h"
#include "report/squint_pictures.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace tidemark;

namespace {

constexpr std::uint8_t ground = 250, ink = 40;

/// Masses from a map of values: below 35 dark, below 70 midtone.
struct Drawn {
    reference::ValueMap map;
    reference::Masses masses;

    template <class Lstar> Drawn(int width, int height, Lstar&& lstar) : map{width, height, {}} {
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x)
                map.lstar.push_back(static_cast<float>(lstar(x, y)));
        const float cuts[] = {35, 70};
        masses = reference::find_masses(reference::group_with(map, cuts), map);
    }
};

/// Where the words stand in the picture, as drawn by the letters themselves on the plate's grey; none: nowhere.
std::optional<std::pair<int, int>> place_of(const grid::Picture& p, const std::string& words, int dot = 2) {
    const int w = report::text_width(words, dot), h = 7 * dot; // descenders aside
    grid::Picture looked_for{w, h, std::vector<std::uint8_t>(std::size_t{3} * w * h, ground)};
    report::draw_text(looked_for, 0, 0, words, dot, ink);
    for (int y = 0; y + h <= p.height; ++y)
        for (int x = 0; x + w <= p.width; ++x) {
            bool same = true;
            for (int j = 0; j < h && same; ++j)
                same = std::equal(looked_for.at(0, j), looked_for.at(0, j) + std::size_t{3} * w, p.at(x, y + j));
            if (same) return std::pair{x, y};
        }
    return std::nullopt;
}

/// Lines between masses, and pixels of plates, by the mass they lie in.
void check_captions_stay_inside(const grid::Picture& p, const reference::Masses& m) {
    for (int y = 1; y < m.height; ++y)
        for (int x = 1; x < m.width; ++x)
            if (m.at(x, y) != m.at(x - 1, y) || m.at(x, y) != m.at(x, y - 1)) REQUIRE(p.at(x, y)[0] == ink);
}

/// A light ground with a broad dark, a midtone strip upright, and one too narrow for a figure.
Drawn three_shapes() {
    return {320, 200, [](int x, int y) {
                if (y > 20 && y < 180 && x > 20 && x < 160) return 20;
                if (y > 20 && y < 180 && x > 180 && x < 210) return 50;
                if (y > 20 && y < 180 && x > 240 && x < 246) return 50;
                return 90;
            }};
}

} // namespace

TEST_CASE("a mass has its number or its name wholly inside it", "[law][report]") {
    const Drawn d = three_shapes();
    REQUIRE(d.masses.list.size() == 4); // 1 the ground, 2 and 3 the strips, 4 the dark
    const grid::Picture numbers = report::masses_picture(d.masses, {}, 4);
    CHECK(numbers.height == d.masses.height);
    check_captions_stay_inside(numbers, d.masses);
    for (const int k : {1, 2, 4}) {
        INFO(k);
        const auto at = place_of(numbers, std::to_string(k));
        REQUIRE(at);
        CHECK(d.masses.at(at->first, at->second) == k - 1);
    }
    CHECK_FALSE(place_of(numbers, "3")); // a strip of 5 pixels: small, beside it, with a line
    const auto beside = place_of(numbers, "3", 1);
    REQUIRE(beside);
    CHECK(d.masses.at(beside->first, beside->second) != 2);
    CHECK(std::abs(beside->first - 243) < 30);

    const grid::Picture named = report::masses_picture(d.masses, {"", "", "", "barn"}, 4);
    CHECK(named.height == d.masses.height);
    check_captions_stay_inside(named, d.masses);
    const auto barn = place_of(named, "barn");
    REQUIRE(barn);
    CHECK(d.masses.at(barn->first, barn->second) == 3);
    CHECK_FALSE(place_of(named, "4"));
}

TEST_CASE("a number that has no room in a narrow mass is written small", "[law][report]") {
    const Drawn narrow(200, 100, [](int x, int y) { return x > 80 && x < 95 && y > 20 && y < 80 ? 20 : 90; });
    const grid::Picture p = report::masses_picture(narrow.masses, {}, 4);
    CHECK_FALSE(place_of(p, "2"));
    const auto small = place_of(p, "2", 1);
    REQUIRE(small);
    CHECK(narrow.masses.at(small->first, small->second) == 1);
    check_captions_stay_inside(p, narrow.masses);
}

TEST_CASE("a number that has no room near its mass stands below the picture, with its place", "[law][report]") {
    const Drawn stripes(200, 120, [](int x, int) { return x / 5 % 2 ? 20 : 50; });
    const grid::Picture p = report::masses_picture(stripes.masses, {}, 4);
    CHECK_FALSE(place_of(p, "1", 1));
    const auto told = place_of(p, "Dots without");
    REQUIRE(told);
    CHECK(told->second >= stripes.masses.height);
    CHECK(place_of(p, "mm;"));
    check_captions_stay_inside(p, stripes.masses);
}

TEST_CASE("a name that has no room in its mass stands below the picture, beside the number", "[law][report]") {
    const Drawn d = three_shapes();
    const grid::Picture p = report::masses_picture(d.masses, {"", "the-gate-post", "rope", ""}, 4);
    CHECK(p.height > d.masses.height);
    check_captions_stay_inside(p, d.masses);
    const auto number = place_of(p, "2"), post = place_of(p, "2 the-gate-post"), rope = place_of(p, "3 rope");
    REQUIRE(number);
    CHECK(d.masses.at(number->first, number->second) == 1);
    REQUIRE(post);
    CHECK(post->second >= d.masses.height);
    REQUIRE(rope);
    CHECK(rope->second > post->second);
    for (int y = 0; y < 3; ++y) // the picture itself is where it was
        CHECK(std::equal(p.at(0, y), p.at(0, y) + std::size_t{3} * p.width, report::masses_picture(d.masses, {}, 4).at(0, y)));
}

TEST_CASE("a name lies where its mass is widest, not in the middle of a bent one", "[law][report]") {
    const Drawn bent(300, 200, [](int x, int y) { return (x > 10 && x < 40 && y > 10) || (y > 150 && x > 10 && x < 280) ? 20 : 90; });
    const grid::Picture p = report::masses_picture(bent.masses, {"", "hedgerow-wall"}, 4);
    const auto at = place_of(p, "hedgerow-wall");
    REQUIRE(at);
    CHECK(at->second > 150);
    check_captions_stay_inside(p, bent.masses);
}

namespace {

/// A trunk from the left, with an arm upwards and a longer one downwards, 4 pixels a mm.
Drawn forked() {
    return {300, 440, [](int x, int y) { return (x < 200 && y > 150 && y < 210) || (x >= 200 && x < 260 && y > 10 && y < 430) ? 20 : 90; }};
}

} // namespace

TEST_CASE("the connected shape shows when each place is painted, arm by arm", "[law][report]") {
    const Drawn d = forked();
    const auto shape = reference::connected_shape(d.masses, 4);
    const reference::Ordering how{
        .start = reference::Place{0, 45}, .band_mm = 4, .branch_mm2 = 0, .branch_mm = 0, .pace_cm2_s = 0.004};
    const reference::Order o = reference::painting_order(d.masses, shape, 4, how);
    REQUIRE(o.branches.size() == 3);
    constexpr double every_s = 600; // of some 100 minutes
    REQUIRE(o.minutes == Approx(100).margin(20));
    const grid::Picture p = report::connected_picture(d.masses, shape, o, 4);
    const auto front = [&](int x, int y) {
        const auto cell = [&](int pixel) { return static_cast<std::size_t>(pixel / 4.0 / o.cell_mm); };
        return static_cast<int>(o.painted_s[cell(y) * o.width + cell(x)] / every_s);
    };
    // Along the upper arm, then along the lower one: each front has its line, and later is paler.
    const auto lines = [&](int from, int to, int step) {
        int count = 0;
        for (int y = from; y != to; y += step) count += p.at(215, y)[0] == 255 && p.at(215, y - step)[0] != 255;
        return count;
    };
    CHECK(lines(110, 12, -1) == front(215, 12) - front(215, 110));
    CHECK(lines(290, 428, 1) == front(215, 428) - front(215, 290));
    CHECK(lines(290, 428, 1) >= 2);
    CHECK(front(215, 290) >= front(215, 12)); // though it is far nearer to the start
    CHECK(p.at(250, 290)[0] > p.at(250, 20)[0]);
    for (int k = 1; k <= 3; ++k) CHECK(place_of(p, std::to_string(k)));
    CHECK(place_of(p, "10:00")); // it says so
}
