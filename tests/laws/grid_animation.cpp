// Animations: what a player shows is what was put in, as near as 255 colours allow.
#include "grid/animation.h"
#include "support/gif_decoder.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tidemark;
using grid::Picture;
using grid::Shown;
using tests::play_gif;

namespace {

Picture flat(int width, int height, std::uint8_t r, std::uint8_t g, std::uint8_t b) {
    Picture p{width, height, {}};
    for (int k = 0; k < width * height; ++k) p.rgb.insert(p.rgb.end(), {r, g, b});
    return p;
}

/// A blue wash that thins from left to right, with some grain: thousands of colours.
Picture wash(double strength) {
    Picture p{160, 100, {}};
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x) {
            const double s = strength * x / p.width + 0.03 * std::sin(0.7 * x + 1.3 * y) * strength;
            for (const double full : {200.0, 140.0, 60.0}) p.rgb.push_back(static_cast<std::uint8_t>(std::lround(240 - full * std::max(0.0, s))));
        }
    return p;
}

} // namespace

TEST_CASE("few colours come back as they were, in order, each for its time", "[law][grid]") {
    std::vector<Shown> shown{{flat(7, 5, 250, 250, 250), 1.4}, {flat(7, 5, 10, 20, 130), 0.12}, {flat(7, 5, 10, 20, 130), 4}};
    shown[2].picture.at(3, 2)[0] = 90;
    const auto bytes = grid::gif_bytes(shown);
    const tests::PlayedGif played = play_gif(bytes);
    REQUIRE(played.pictures.size() == 3);
    for (std::size_t k = 0; k < 3; ++k) CHECK(played.pictures[k].rgb == shown[k].picture.rgb);
    CHECK(played.hundredths == std::vector<int>{140, 12, 400});
    CHECK(played.transparent_pixels == 7 * 5 - 1); // all of the last one but what changed
    CHECK(grid::gif_bytes(shown) == bytes);
}

TEST_CASE("a wash of thousands of colours comes back within a few codes", "[law][grid]") {
    const std::vector<Shown> shown{{wash(0.2), 0.1}, {wash(0.6), 0.1}, {wash(1), 0.1}};
    const tests::PlayedGif played = play_gif(grid::gif_bytes(shown));
    REQUIRE(played.pictures.size() == 3);
    int worst = 0;
    double sum = 0, codes = 0;
    for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t i = 0; i < shown[k].picture.rgb.size(); ++i) {
            const int off = std::abs(played.pictures[k].rgb[i] - shown[k].picture.rgb[i]);
            worst = std::max(worst, off), sum += off, ++codes;
        }
    INFO("worst " << worst << ", mean " << sum / codes);
    CHECK(worst <= 4);
    CHECK(sum / codes < 1);
}

TEST_CASE("an animation of no pictures, of several sizes, or of no time is refused", "[wrong][grid]") {
    CHECK_THROWS_AS(grid::gif_bytes({}), std::invalid_argument);
    CHECK_THROWS_AS(grid::gif_bytes({{flat(4, 4, 1, 2, 3), 1}, {flat(4, 5, 1, 2, 3), 1}}), std::invalid_argument);
    CHECK_THROWS_AS(grid::gif_bytes({{flat(4, 4, 1, 2, 3), 0}}), std::invalid_argument);
}
