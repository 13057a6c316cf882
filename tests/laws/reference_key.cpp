// A photograph's values, moved to where paint can follow.
#include "colour/lab.h"
#include "reference/key.h"
#include "reference/value_map.h"
#include "reference_pictures.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

grid::Picture ramp(int from, int to) {
    grid::Picture p = tests::flat_picture(256, 8, 0, 0, 0);
    for (int y = 0; y < 8; ++y)
        for (int x = 0; x < 256; ++x)
            std::fill_n(p.at(x, y), 3, static_cast<std::uint8_t>(from + (to - from) * x / 255));
    return p;
}

} // namespace

TEST_CASE("a picture within what paint reaches keeps its values", "[law][reference]") {
    const grid::Picture p = ramp(90, 250);
    const Key key = key_of(p);
    CHECK_FALSE(key.moves());
    CHECK(in_key(p, key).rgb == p.rgb);
}

TEST_CASE("darks that no wash reaches move up, in order, and even steps stay even", "[law][reference]") {
    const grid::Picture p = ramp(0, 255);
    const Key key = key_of(p);
    CHECK(key.at(key.from_dark) == Approx(darkest_wash_lstar));
    CHECK(key.at(key.from_light) == Approx(key.from_light)); // the lights stay
    const ValueMap before = value_map(p), after = value_map(in_key(p, key));
    for (int x = 4; x + 4 < 256; ++x) {
        CHECK(after.at(x, 0) >= after.at(x - 1, 0));
        CHECK(after.at(x, 0) == Approx(key.at(before.at(x, 0))).margin(0.5)); // half a code
    }
    CHECK(key.at(50) - key.at(40) == Approx(key.at(80) - key.at(70)));
}

TEST_CASE("a dark picture's lights rise to a light wash", "[law][reference]") {
    const Key key = key_of(ramp(5, 110));
    CHECK(key.at(key.from_dark) == Approx(darkest_wash_lstar));
    CHECK(key.at(key.from_light) == Approx(least_lightest_lstar));
}

TEST_CASE("moving values keeps the hue", "[law][reference]") {
    const grid::Picture p = tests::flat_picture(4, 4, 20, 34, 26);
    const Key key{.from_dark = 5, .from_light = 60, .to_dark = 30, .to_light = 80};
    const std::uint8_t* rgb = p.at(0, 0);
    const auto moved = in_key(p, key);
    const colour::Lab was = colour::lab_from_srgb({rgb[0], rgb[1], rgb[2]}),
                      is = colour::lab_from_srgb({moved.at(0, 0)[0], moved.at(0, 0)[1], moved.at(0, 0)[2]});
    CHECK(is.L == Approx(key.at(was.L)).margin(0.4));
    CHECK(is.a == Approx(was.a).margin(0.7));
    CHECK(is.b == Approx(was.b).margin(0.7));
}

TEST_CASE("one value alone moves to the darkest wash, if it must", "[law][reference]") {
    CHECK(key_of(tests::flat_picture(9, 9, 0, 0, 0)).at(0) == Approx(darkest_wash_lstar));
    CHECK_FALSE(key_of(tests::flat_picture(9, 9, 120, 120, 120)).moves());
    CHECK(key_of(tests::flat_picture(1, 1, 0, 0, 0)).at(0) == Approx(darkest_wash_lstar));
}
