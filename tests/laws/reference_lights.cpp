/// Which lights are kept, and how: distances and edge widths with known answers, and drawn scenes.
#include "reference/edge_width.h"
#include "reference/inscribed.h"
#include "reference/lights_to_save.h"
#include "reference/squint.h"
#include "reference_scene.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace tidemark;
using namespace tidemark::reference;
using tests::Scene;

namespace {

std::int64_t nearest_other(const std::vector<int>& label, int w, int h, int x, int y) {
    std::int64_t best = 1ll << 40;
    for (int j = -1; j <= h; ++j)
        for (int i = -1; i <= w; ++i) {
            const bool beyond = i < 0 || j < 0 || i == w || j == h;
            if (beyond || label[static_cast<std::size_t>(j) * w + i] != label[static_cast<std::size_t>(y) * w + x])
                best = std::min<std::int64_t>(best, (i - x) * (i - x) + (j - y) * (j - y));
        }
    return best;
}

ValueMap drawn(int w, int h, const std::function<double(double, double)>& lstar) {
    ValueMap map{w, h, {}};
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) map.lstar.push_back(static_cast<float>(lstar(x + 0.5, y + 0.5)));
    return map;
}

/// Cut at these values; mass of the pixel in the middle, and the width of its edge, pixels.
double middle_edge(const ValueMap& map, float cut, double reach) {
    const float cuts[] = {cut};
    const Masses m = find_masses(group_with(map, cuts), map);
    const int mass = m.at(map.width / 2, map.height / 2);
    return edge_widths(m, map, {mass}, {inscribed(m)[mass].width_pixels}, reach).at(0);
}

/// Lights of 4 pixels/mm on an L* of 30: a crisp square, a soft low one, a soft high one, a glint.
struct Lights {
    ValueMap map;
    Masses fine, masses;
    Lights() {
        const auto hill = [](double x, double y, double cx, double cy, double r, double soft) {
            const double d = std::hypot(x - cx, y - cy);
            return std::clamp(0.5 + (r - d) / soft, 0.0, 1.0);
        };
        map = drawn(360, 160, [&](double x, double y) {
            double l = 30;
            if (x > 20 && x < 70 && y > 20 && y < 70) l = 90;
            l += 18 * hill(x, y, 120, 80, 25, 30);
            l += 60 * hill(x, y, 240, 80, 30, 30);
            if (std::hypot(x - 320.5, y - 30.5) < 3.5) l = 88;
            return l;
        });
        const float cuts[] = {40};
        fine = find_masses(group_with(map, cuts), map);
        masses = merged(fine, map, 100);
    }
    const Light& near(const std::vector<Light>& lights, double x, double y) const {
        for (const Light& l : lights)
            if (std::hypot(l.at.x_mm - x / 4, l.at.y_mm - y / 4) < 3) return l;
        throw std::runtime_error("no light there");
    }
};

} // namespace

TEST_CASE("distances to other masses are those of all pixels tried, exactly", "[law][reference]") {
    std::mt19937 random(4);
    for (int trial = 0; trial < 30; ++trial) {
        const int w = 1 + static_cast<int>(random() % 34), h = 1 + static_cast<int>(random() % 26);
        std::vector<int> label(static_cast<std::size_t>(w) * h);
        for (std::size_t p = 0; p < label.size(); ++p) // patches, some of them large
            label[p] = random() % 12 == 0 || p < static_cast<std::size_t>(w) ? static_cast<int>(random() % 3) : label[p - w];
        const auto squared = squared_to_others(label, w, h);
        for (int y = 0; y < h; ++y)
            for (int x = 0; x < w; ++x)
                REQUIRE(squared[static_cast<std::size_t>(y) * w + x] == nearest_other(label, w, h, x, y));
    }
    CHECK(squared_to_others({}, 0, 0).empty());
}

TEST_CASE("the inscribed width of a strip is its width, of a disc its diameter, of a pixel one", "[law][reference]") {
    const Scene s({"ddddddddddd", //
                   "d.........d", //
                   "d.........d", //
                   "d.........d", //
                   "ddddddddddd", //
                   "ddddd.ddddd", //
                   "ddddddddddd"});
    const auto circles = inscribed(s.masses);
    const Inscribed &strip = circles[s.masses.at(5, 2)], &pixel = circles[s.masses.at(5, 5)];
    CHECK(strip.width_pixels == 3);
    CHECK(strip.x == 5); // in its middle
    CHECK(strip.y == 2);
    CHECK(pixel.width_pixels == 1);
    const ValueMap map = drawn(101, 101, [](double x, double y) { return std::hypot(x - 50.5, y - 50.5) < 30 ? 90 : 20; });
    const float cuts[] = {50};
    const Masses m = find_masses(group_with(map, cuts), map);
    const Inscribed disc = inscribed(m)[m.at(50, 50)];
    CHECK(disc.width_pixels == Approx(60).margin(1.1));
    CHECK(disc.x == 50);
    CHECK(disc.y == 50);
}

TEST_CASE("an edge is as wide as it was blurred, whichever way it runs", "[law][reference]") {
    // 10-90 % of a step blurred by a normal distribution of deviation s: 2.563 s.
    for (const double turn : {0.0, 0.3, 0.7853981633974483, 1.2, 1.5707963267948966}) {
        INFO(turn);
        const auto across = [&](double x, double y) { return (x - 90) * std::cos(turn) + (y - 90) * std::sin(turn); };
        const ValueMap step = drawn(180, 180, [&](double x, double y) { return across(x, y) < 4 ? 85 : 25; });
        for (const double sigma : {3.0, 5.0})
            CHECK(middle_edge(blurred(step, sigma), 55, 24) == Approx(2.5631 * sigma).epsilon(0.06));
        const ValueMap ramp =
            drawn(180, 180, [&](double x, double y) { return 55 + 30 * std::clamp((4 - across(x, y)) / 10, -1.0, 1.0); });
        // A ramp rises from 10 to 90 % over 16 of its 20 pixels, the normal distribution nearest to it, levels free, over 17.1:
        // least squares over 24 pixels to either side, computed apart.
        CHECK(middle_edge(ramp, 55, 24) == Approx(17.1).epsilon(0.03));
        CHECK(middle_edge(step, 55, 24) < 1.7);
    }
    const ValueMap disc = drawn(180, 180, [](double x, double y) { return std::hypot(x - 90, y - 90) < 50 ? 85 : 25; });
    CHECK(middle_edge(blurred(disc, 4), 55, 24) == Approx(2.5631 * 4).epsilon(0.06));
    const ValueMap flat = drawn(20, 20, [](double, double) { return 50; });
    CHECK(std::isnan(middle_edge(flat, 55, 24)));
}

TEST_CASE("a crisp light is painted round, a soft low one lifted, a glint reserved", "[law][reference]") {
    const Lights s;
    const auto lights = lights_to_save(s.masses, s.fine, s.map, 4);
    REQUIRE(lights.size() == 4);
    const Light &square = s.near(lights, 45, 45), &low = s.near(lights, 120, 80), &high = s.near(lights, 240, 80),
                &glint = s.near(lights, 320, 30);
    CHECK(square.keep == Keep::round);
    CHECK_FALSE(square.fine);
    CHECK(square.area_mm2 == 50 * 50 / 16.0);
    CHECK(square.width_mm == Approx(12.5).margin(0.3));
    CHECK(square.contrast_lstar == Approx(60).margin(1));
    CHECK(square.edge_mm < 0.4);
    CHECK(low.keep == Keep::lift);
    CHECK(low.edge_mm > 3); // 30 pixels of ramp, by what the reach of 4 mm shows of it
    CHECK(low.contrast_lstar < 25);
    CHECK(high.keep == Keep::round); // soft, but lifting would not bring it back
    CHECK(high.reason.find("soften its edge") != std::string::npos);
    CHECK(glint.keep == Keep::reserve);
    CHECK(glint.fine); // merging had taken it
    CHECK(s.masses.list[s.masses.at(320, 30)].group == 0);
    CHECK(glint.width_mm == Approx(7 / 4.0).margin(0.3));
    CHECK(glint.at.x_mm == Approx(80).margin(0.3));
    CHECK(glint.at.y_mm == Approx(7.5).margin(0.3));
    for (const Light& l : lights) CHECK(!l.reason.empty());
    const auto strikes = [](const Light& l) { return l.contrast_lstar * std::sqrt(l.area_mm2); };
    for (std::size_t k = 1; k < lights.size(); ++k) CHECK(strikes(lights[k]) <= strikes(lights[k - 1]));
    // The painter's own brush, and fewer of them.
    CHECK(s.near(lights_to_save(s.masses, s.fine, s.map, 4, {.mark_mm = 1}), 320, 30).keep == Keep::round);
    CHECK(s.near(lights_to_save(s.masses, s.fine, s.map, 4, {.mark_mm = 20}), 45, 45).keep ==
          Keep::reserve);
    CHECK(lights_to_save(s.masses, s.fine, s.map, 4, {.most = 2}).size() == 2);
    CHECK(lights_to_save(s.masses, s.fine, s.map, 4, {.smallest_mm2 = 10}).size() == 3);
}

TEST_CASE("a mirrored picture keeps the same lights", "[law][reference]") {
    const Lights s;
    ValueMap turned = s.map;
    for (int y = 0; y < s.map.height; ++y)
        for (int x = 0; x < s.map.width; ++x)
            turned.lstar[static_cast<std::size_t>(y) * s.map.width + x] = s.map.at(s.map.width - 1 - x, y);
    const float cuts[] = {40};
    const Masses fine = find_masses(group_with(turned, cuts), turned);
    const auto a = lights_to_save(s.masses, s.fine, s.map, 4), b = lights_to_save(merged(fine, turned, 100), fine, turned, 4);
    REQUIRE(a.size() == b.size());
    for (std::size_t k = 0; k < a.size(); ++k) {
        CHECK(a[k].keep == b[k].keep);
        CHECK(a[k].area_mm2 == b[k].area_mm2);
        CHECK(a[k].width_mm == b[k].width_mm);
        CHECK(a[k].edge_mm == Approx(b[k].edge_mm).epsilon(0.05));
        CHECK(a[k].at.x_mm == Approx(90 - b[k].at.x_mm).margin(0.3));
    }
}

TEST_CASE("a picture of one value is one light without an edge, and none has no lights", "[law][reference]") {
    const Scene flat({"....", "...."}), none({}), pixel({"d.d", "ddd"});
    const auto lights = lights_to_save(flat.masses, flat.masses, flat.map, 1);
    REQUIRE(lights.size() == 1);
    CHECK(lights[0].contrast_lstar == 0);
    CHECK(std::isnan(lights[0].edge_mm));
    CHECK(lights_to_save(none.masses, none.masses, none.map, 1).empty());
    const auto one = lights_to_save(pixel.masses, pixel.masses, pixel.map, 1);
    REQUIRE(one.size() == 1);
    CHECK(one[0].keep == Keep::reserve);
    CHECK(one[0].width_mm == 1);
    CHECK(one[0].contrast_lstar == Approx(70));
}

namespace {

/// A texture of deviation 1: seeded noise, blurred.
ValueMap texture(int w, int h, double sigma_pixels, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<float> normal;
    ValueMap t{w, h, std::vector<float>(static_cast<std::size_t>(w) * h)};
    for (float& v : t.lstar) v = normal(random);
    t = blurred(t, sigma_pixels);
    double squares = 0;
    for (const float v : t.lstar) squares += static_cast<double>(v) * v;
    for (float& v : t.lstar) v /= static_cast<float>(std::sqrt(squares / static_cast<double>(t.lstar.size())));
    return t;
}

} // namespace

TEST_CASE("an edge between two textures is as wide as it is, along a crooked boundary too", "[law][reference]") {
    constexpr int w = 320, h = 360;
    constexpr double pixels_per_mm = 4;
    struct Case { double crooked_mm, texture_lstar, grain_pixels; };
    for (const Case& c : {Case{0, 4, 1}, {0, 4, 3}, {0, 8, 1}, {0.75, 0, 1}, {0.75, 4, 1}, {0.75, 4, 3}}) {
        const ValueMap grain = texture(w, h, c.grain_pixels, 7);
        for (const double width_mm : {1.0, 2.0, 4.0, 8.0}) {
            INFO("crooked by " << c.crooked_mm << " mm, texture " << c.texture_lstar << " L* of " << c.grain_pixels
                               << " pixels, edge of " << width_mm << " mm");
            const double s = width_mm * pixels_per_mm / 2.5631;
            ValueMap map = drawn(w, h, [&](double x, double y) { // waves 7 and 15 mm long on a slope
                const double a = c.crooked_mm * pixels_per_mm, u = 2 * M_PI * y / 28, v = 2 * M_PI * y / 61 + 1;
                const double at = 160 + 0.25 * (y - 180) + a * std::sin(u) + 0.7 * a * std::sin(v);
                const double slope = 0.25 + a * std::cos(u) * 2 * M_PI / 28 + 0.7 * a * std::cos(v) * 2 * M_PI / 61;
                return 35 + 20 * std::erfc((x - at) / std::sqrt(1 + slope * slope) / s * M_SQRT1_2);
            });
            for (std::size_t p = 0; p < map.lstar.size(); ++p)
                map.lstar[p] += static_cast<float>(c.texture_lstar) * grain.lstar[p];
            const Masses m = squint(map, pixels_per_mm, 2, {.crumb_mm2 = 20, .simplify_mm = 1}).masses;
            const double reach = 10 * pixels_per_mm;
            const double found = edge_widths(m, map, {m.at(20, 180)}, {2 * reach}, reach).at(0) / pixels_per_mm;
            // A grain that changes over more than the edge is wide is worse to tell from it.
            const bool coarse = c.texture_lstar > 0 && 2.5631 * c.grain_pixels > width_mm * pixels_per_mm;
            CHECK(found == Approx(width_mm).epsilon(coarse ? 0.2 : 0.1));
        }
    }
}

TEST_CASE("what changes again behind a hard edge does not make it soft", "[law][reference]") {
    constexpr int w = 240, h = 200;
    const ValueMap grain = texture(w, h, 1, 5);
    for (const double behind_mm : {5.0, 7.0, 9.0}) { // light, boards, the dark below them
        INFO(behind_mm);
        const auto step = [](double x, double at) { return 0.5 * std::erfc((x - at) / (0.6 * 4 / 2.5631) * M_SQRT1_2); };
        ValueMap map = drawn(w, h, [&](double x, double) { return 15 + 20 * step(x, 100 + 4 * behind_mm) + 30 * step(x, 100); });
        for (std::size_t p = 0; p < map.lstar.size(); ++p) map.lstar[p] += 3 * grain.lstar[p];
        const float cuts[] = {50};
        const Masses m = find_masses(voted(group_with(map, cuts), map, 3), map);
        CHECK(edge_widths(m, map, {m.at(20, 100)}, {80}, 40).at(0) == Approx(0.6 * 4).margin(0.6));
    }
}

TEST_CASE("a texture by itself has no edge", "[law][reference]") {
    constexpr int w = 200, h = 200;
    ValueMap map = texture(w, h, 1, 3);
    for (float& v : map.lstar) v = 50 + 5 * v;
    Groups g{2, {50}, w, h, {}, {50, 50}, {w * h / 2, w * h / 2}}; // a border drawn across it
    for (int p = 0; p < w * h; ++p) g.group.push_back(p % w < w / 2);
    const Masses m = find_masses(g, map);
    CHECK(std::isnan(edge_widths(m, map, {0}, {100}, 20).at(0)));
    CHECK(std::isnan(edge_widths(m, map, {0}, {100}, 40).at(0)));
}
