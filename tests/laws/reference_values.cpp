/// Value maps and groups: what holds for any picture.
#include "colour/lab.h"
#include "grid/problem.h"
#include "reference/groups.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

using namespace tidemark;
using namespace tidemark::reference;

TEST_CASE("the value of a grey is its L*, and of a colour not the mean of its channels", "[published][reference]") {
    // L* of sRGB greys from the definitions (IEC 61966-2-1; CIE 15): ((c/255 + 0.055)/1.055)^2.4, 116 Y^(1/3) - 16.
    // 0.02: the map holds floats from a table, the display encoding of 8-bit values is exact.
    for (const int grey : {0, 20, 64, 119, 128, 200, 255}) {
        const auto c = static_cast<std::uint8_t>(grey);
        const double s = grey / 255.0, Y = s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
        const double lstar = Y > 216.0 / 24389 ? 116 * std::cbrt(Y) - 16 : Y * 24389 / 27;
        CHECK(value_map(tests::flat_picture(2, 2, c, c, c)).at(1, 1) == Approx(lstar).margin(0.02));
    }
    // Y of the sRGB primaries is 0.2126, 0.7152, 0.0722: L* 53.24, 87.73, 32.30 (IEC 61966-2-1; CIE 15).
    CHECK(value_map(tests::flat_picture(1, 1, 255, 0, 0)).at(0, 0) == Approx(53.24).margin(0.02));
    CHECK(value_map(tests::flat_picture(1, 1, 0, 255, 0)).at(0, 0) == Approx(87.73).margin(0.02));
    CHECK(value_map(tests::flat_picture(1, 1, 0, 0, 255)).at(0, 0) == Approx(32.30).margin(0.02));
}

TEST_CASE("resizing a value map keeps its mean, and a constant", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(240, 180));
    const auto mean = [](const ValueMap& m) {
        return std::accumulate(m.lstar.begin(), m.lstar.end(), 0.0) / static_cast<double>(m.lstar.size());
    };
    for (const auto& [w, h] : {std::pair{80, 60}, {97, 31}, {480, 360}})
        CHECK(mean(resized(map, w, h)) == Approx(mean(map)).epsilon(1e-5)); // float weights
    for (const float v : resized(value_map(tests::flat_picture(50, 40, 90, 90, 90)), 33, 7).lstar)
        CHECK(v == Approx(colour::lstar_from_srgb({90, 90, 90})).epsilon(1e-6));
}

TEST_CASE("groups rise in value, cover every pixel and come out the same twice", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(200, 150));
    for (int count = min_groups; count <= max_groups; ++count) {
        const Groups g = group_values(map, count), again = group_values(map, count);
        REQUIRE(g.count == count);
        REQUIRE(g.thresholds.size() == static_cast<std::size_t>(count - 1));
        CHECK(g.group == again.group);
        CHECK(g.thresholds == again.thresholds);
        CHECK(std::accumulate(g.pixels.begin(), g.pixels.end(), std::int64_t{0}) == 200 * 150);
        for (int k = 0; k + 1 < count; ++k) {
            CHECK(g.mean_lstar[k] < g.thresholds[k]);
            CHECK(g.thresholds[k] < g.mean_lstar[k + 1]);
        }
        for (std::size_t p = 0; p < map.lstar.size(); ++p) {
            const int k = g.group[p];
            const bool fits =
                (k == 0 || map.lstar[p] >= g.thresholds[k - 1]) && (k == count - 1 || map.lstar[p] < g.thresholds[k]);
            if (!fits)
                FAIL_CHECK("pixel " << p << " of L* " << map.lstar[p] << " is in group " << k);
        }
    }
}

TEST_CASE("the same thresholds on another map give groups by the same measure", "[law][reference]") {
    const ValueMap map = value_map(tests::landscape(120, 90));
    const Groups g = group_values(map, 3);
    CHECK(group_with(map, g.thresholds).group == g.group);
    const Groups dark = group_with(value_map(tests::flat_picture(5, 5, 0, 0, 0)), g.thresholds);
    CHECK(dark.count == 3);
    CHECK(dark.pixels == std::vector<std::int64_t>{25, 0, 0});
    CHECK(std::isnan(dark.mean_lstar[2]));
}

TEST_CASE("a picture with fewer values than groups gets one group a value", "[law][reference]") {
    const Groups flat = group_values(value_map(tests::flat_picture(9, 7, 120, 120, 120)), 3);
    CHECK(flat.count == 1);
    CHECK(flat.thresholds.empty());
    CHECK(flat.pixels == std::vector<std::int64_t>{63});
    grid::Picture two = tests::flat_picture(4, 4, 40, 40, 40);
    std::fill_n(two.at(0, 0), 3 * 6, std::uint8_t{200});
    const Groups pair = group_values(value_map(two), 5);
    CHECK(pair.count == 2);
    CHECK(pair.pixels == std::vector<std::int64_t>{10, 6});
}

TEST_CASE("a number of groups outside 2 to 7 is refused", "[wrong][reference]") {
    const ValueMap map = value_map(tests::flat_picture(2, 2, 9, 9, 9));
    CHECK_THROWS_AS(group_values(map, 1), grid::InternalError);
    CHECK_THROWS_AS(group_values(map, 8), grid::InternalError);
}
