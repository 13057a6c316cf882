#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "grid/files.h"
#include "grid/picture.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using grid::GreyPicture;
using grid::Picture;

namespace {

/// Every pixel different, in a way that no flip or transpose leaves alone.
Picture patterned(int width, int height) {
    Picture p{width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height)};
    std::uint32_t state = 1;
    for (auto& code : p.rgb) code = static_cast<std::uint8_t>((state = state * 1664525u + 1013904223u) >> 24);
    return p;
}

std::size_t place_of(const std::vector<std::uint8_t>& bytes, const std::string& text) {
    return std::string(bytes.begin(), bytes.end()).find(text);
}

} // namespace

TEST_CASE("a picture comes back from its PNG to the last bit", "[law][grid]") {
    const tests::TemporaryFolder folder;
    for (const auto& [w, h] : {std::pair(1, 1), std::pair(37, 5), std::pair(128, 96)}) {
        const Picture p = patterned(w, h);
        const Picture back = grid::read_picture(folder.put("p.png", grid::png_bytes(p, 2000)));
        CHECK(back.width == w);
        CHECK(back.height == h);
        CHECK(back.rgb == p.rgb);
    }
}

TEST_CASE("a PNG says how large the sheet is, and that its colours are sRGB", "[law][grid]") {
    const auto bytes = grid::png_bytes(patterned(4, 4), 2000);
    const std::size_t at = place_of(bytes, "pHYs");
    REQUIRE(at != std::string::npos);
    CHECK(at < place_of(bytes, "IDAT"));
    const std::vector<std::uint8_t> half_millimetre{0, 0, 0x07, 0xD0, 0, 0, 0x07, 0xD0, 1}; // 2000 a metre, both ways
    CHECK(std::equal(half_millimetre.begin(), half_millimetre.end(), bytes.begin() + static_cast<long>(at) + 4));
    CHECK(place_of(bytes, "sRGB") < at);
    CHECK(place_of(grid::png_bytes(patterned(4, 4)), "pHYs") == std::string::npos);
    CHECK(grid::png_bytes(patterned(40, 30), 2000) == grid::png_bytes(patterned(40, 30), 2000));
}

TEST_CASE("a grey picture keeps its 256 steps", "[law][grid]") {
    const tests::TemporaryFolder folder;
    GreyPicture p{256, 1, std::vector<float>(256)};
    for (int k = 0; k < 256; ++k) p.value[static_cast<std::size_t>(k)] = static_cast<float>(k) / 255;
    const GreyPicture back = grid::read_grey(folder.put("g.png", grid::png_bytes(p)));
    CHECK(back.value == p.value);
    p.value = {-1, 2, NAN, 0.5f};
    p.width = 4;
    const GreyPicture odd = grid::read_grey(folder.put("o.png", grid::png_bytes(p)));
    CHECK(odd.value == std::vector<float>{0, 1, 0, 128 / 255.0f});
}

TEST_CASE("a constant picture stays that constant at any size", "[law][grid]") {
    Picture p{7, 5, std::vector<std::uint8_t>(7 * 5 * 3, 201)};
    GreyPicture g{7, 5, std::vector<float>(7 * 5, 0.3f)};
    for (const int w : {1, 3, 7, 8, 50})
        for (const int h : {1, 2, 5, 9, 31}) {
            for (const auto code : grid::resized(p, w, h).rgb) REQUIRE(code == 201);
            for (const float v : grid::resized(g, w, h).value) REQUIRE(v == 0.3f);
        }
}

TEST_CASE("a ramp stays a ramp when a picture grows", "[law][grid]") {
    GreyPicture g{10, 2, std::vector<float>(20)};
    for (int x = 0; x < 10; ++x) g.value[static_cast<std::size_t>(x)] = g.value[static_cast<std::size_t>(10 + x)] = 0.1f * static_cast<float>(x);
    const GreyPicture big = grid::resized(g, 40, 6);
    for (int x = 2; x < 38; ++x) // the outermost half source pixel has no neighbour to lean on
        for (int y = 0; y < 6; ++y)
            CHECK(big.at(x, y) == Approx(0.1 * ((x + 0.5) / 4 - 0.5)).margin(1e-6));
}

TEST_CASE("the mean of a picture is kept when it shrinks", "[law][grid]") {
    GreyPicture g{60, 45, std::vector<float>(60 * 45)};
    std::uint32_t state = 7;
    for (float& v : g.value) v = static_cast<float>((state = state * 1664525u + 1013904223u) >> 8) / 16777216.0f;
    const auto mean = [](const GreyPicture& p) {
        return std::accumulate(p.value.begin(), p.value.end(), 0.0) / static_cast<double>(p.value.size());
    };
    for (const auto& [w, h] : {std::pair(20, 15), std::pair(17, 13), std::pair(1, 1), std::pair(59, 44)})
        CHECK(mean(grid::resized(g, w, h)) == Approx(mean(g)).epsilon(1e-6));
    CHECK(grid::resized(g, 60, 45).value == g.value);
}

TEST_CASE("resampling prefers no direction", "[law][grid]") {
    const Picture p = patterned(24, 24);
    Picture t = p;
    for (int y = 0; y < 24; ++y)
        for (int x = 0; x < 24; ++x) std::copy_n(p.at(x, y), 3, t.at(y, x));
    for (const int size : {7, 40}) {
        const Picture a = grid::resized(p, size, size), b = grid::resized(t, size, size);
        for (int y = 0; y < size; ++y)
            for (int x = 0; x < size; ++x)
                for (int c = 0; c < 3; ++c) // sums in another order may round a half the other way
                    CHECK(std::abs(a.at(x, y)[c] - b.at(y, x)[c]) <= 1);
    }
}
