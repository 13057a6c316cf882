// Photographs read no larger than they must be, and never larger than memory allows.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>

#include "grid/picture.h"
#include "grid/problem.h"
#include "support/jpeg_builder.h"
#include "support/png_builder.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using namespace tests;

namespace {

grid::ScaleNeeded always(double share) {
    return [share](int, int) { return share; };
}

/// Masses with soft borders and a texture three to ten pixels wide, as a photograph has them.
Bytes scene(int width, int height) {
    Bytes rgb;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double hill = 1 / (1 + std::exp((y - height * 0.6 - 20 * std::sin(x / 40.0)) / 3));
            const double grass = 12 * std::sin(x / 0.9) * std::sin(y / 1.3), cloud = 20 * std::sin(x / 31.0 + y / 57.0);
            for (const double v : {60 + 110 * hill + grass + cloud, 90 + 100 * hill + grass, 50 + 160 * hill + cloud})
                rgb.push_back(static_cast<std::uint8_t>(v));
        }
    return rgb;
}

std::string refusal(const std::filesystem::path& path, const grid::PictureLimits& limits,
                    const grid::ScaleNeeded& scale = {}) {
    try {
        grid::read_photograph(path, "photo", limits, scale);
    } catch (const grid::BadInput& bad) {
        return bad.what();
    }
    return "taken";
}

/// The share of the limit that a picture is just read under; found by trying.
std::int64_t memory_taken(const std::filesystem::path& path, const grid::ScaleNeeded& scale = {}) {
    std::int64_t refused = 0, taken = 1ll << 30;
    while (taken - refused > 1) {
        const std::int64_t middle = (refused + taken) / 2;
        (refusal(path, {.max_memory_bytes = middle}, scale) == "taken" ? taken : refused) = middle;
    }
    return taken;
}

} // namespace

TEST_CASE("a photograph is read at the smallest scale that is enough", "[law][grid]") {
    const tests::TemporaryFolder folder;
    const auto path = folder.put("p.jpg", jpeg_of(scene(400, 304), 400, 304, TJPF_RGB, TJSAMP_420));
    for (int eighths = 1; eighths <= 8; ++eighths)
        for (const double below : {0.0, 0.01, 0.12}) {
            const auto p = grid::read_photograph(path, {}, {}, always(eighths / 8.0 - below));
            CHECK(p.picture.width == 400 * eighths / 8);
            CHECK(p.picture.height == 304 * eighths / 8);
            CHECK(p.full_width == 400);
            CHECK(p.full_height == 304);
        }
    for (const double share : {1.5, static_cast<double>(NAN)})
        CHECK(grid::read_photograph(path, {}, {}, always(share)).picture.width == 400);
    for (const double share : {0.0, -3.0})
        CHECK(grid::read_photograph(path, {}, {}, always(share)).picture.width == 50);
    const auto png = folder.put("p.png", grid::png_bytes(grid::read_picture(path)));
    CHECK(grid::read_photograph(png, {}, {}, always(0.1)).picture.width == 400);
}

TEST_CASE("a photograph read at a smaller scale is the whole one reduced", "[law][grid]") {
    // By the decoder's own filter, which keeps a little more of the finest texture than a mean does. 400 x 304 goes
    // into eighths without a rest, so that pixels lie over pixels.
    const tests::TemporaryFolder folder;
    for (const int sampling : {TJSAMP_444, TJSAMP_420}) {
        const auto path = folder.put("p.jpg", jpeg_of(scene(400, 304), 400, 304, TJPF_RGB, sampling));
        const grid::Picture whole = grid::read_picture(path);
        for (int eighths = 1; eighths < 8; ++eighths) {
            const grid::Picture small = grid::read_photograph(path, {}, {}, always(eighths / 8.0)).picture;
            const grid::Picture mean = grid::resized(whole, small.width, small.height);
            double off = 0, bias = 0;
            for (std::size_t k = 0; k < small.rgb.size(); ++k)
                off += std::abs(small.rgb[k] - mean.rgb[k]), bias += small.rgb[k] - mean.rgb[k];
            INFO(eighths << " eighths");
            CHECK(off / static_cast<double>(small.rgb.size()) < 2.5);
            CHECK(std::fabs(bias) / static_cast<double>(small.rgb.size()) < 0.25);
        }
    }
}

TEST_CASE("a photograph is turned alike at every scale", "[law][grid]") {
    const std::pair<int, const char*> scenes[] = {{1, "rgbw"}, {2, "grwb"}, {3, "wbgr"}, {4, "bwrg"},
                                                  {5, "rbgw"}, {6, "brwg"}, {7, "wgbr"}, {8, "gwrb"}};
    const tests::TemporaryFolder folder;
    const Bytes jpeg = jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_444);
    for (const auto& [orientation, scene] : scenes)
        for (int eighths = 1; eighths <= 8; ++eighths) {
            const auto path = folder.put("turned.jpg", with_orientation(jpeg, orientation, true));
            int asked_width = 0;
            const auto p = grid::read_photograph(path, {}, {}, [&](int width, int) {
                asked_width = width;
                return eighths / 8.0;
            });
            INFO("orientation " << orientation << ", " << eighths << " eighths");
            CHECK(seen(p.picture) == scene);
            const int width = orientation < 5 ? 48 : 32;
            CHECK(asked_width == width);
            CHECK(p.full_width == width);
            CHECK(p.picture.width == width * eighths / 8);
        }
}

TEST_CASE("what decoding takes is reckoned from the header and held to a limit", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const auto plain = folder.put("p.jpg", jpeg_of(scene(400, 304), 400, 304, TJPF_RGB, TJSAMP_420));
    constexpr std::int64_t pixels = 400 * 304;
    CHECK(refusal(plain, {.max_memory_bytes = 3 * pixels - 1}) ==
          "photo: the picture is 400 x 304 pixels, which take 364800 bytes to read; allowed: at most 364799 bytes");
    CHECK(memory_taken(plain) == 3 * pixels);
    CHECK(memory_taken(plain, always(0.5)) == 3 * pixels / 4);
    const auto turned = folder.put(
        "t.jpg", with_orientation(jpeg_of(scene(400, 304), 400, 304, TJPF_RGB, TJSAMP_420), 6, false));
    CHECK(memory_taken(turned) == 6 * pixels);
    // A progressive file's samples, 16 bits each and half as many colours as pixels, are all held whatever the scale.
    const auto progressive = folder.put(
        "s.jpg", jpeg_of(scene(400, 304), 400, 304, TJPF_RGB, TJSAMP_420, TJFLAG_PROGRESSIVE));
    CHECK(memory_taken(progressive) == 3 * pixels + 3 * pixels);
    CHECK(memory_taken(progressive, always(0.125)) == 3 * (pixels / 64) + 3 * pixels);
    // A PNG: its rows with a filter byte at most, its samples with one more channel, the picture.
    const auto png = folder.put("p.png", grid::png_bytes(grid::read_picture(plain)));
    CHECK(memory_taken(png) >= 9 * pixels);
    CHECK(memory_taken(png) <= 12 * pixels);
    CHECK_THAT(refusal(folder.put("p.png", tests::png_of(9000, 9000, 16, 6, {0})), {}),
               Catch::StartsWith("photo: the picture is 9000 x 9000 pixels, which take "));
    // The number of pixels that counts is of those read.
    CHECK(refusal(plain, {.max_pixels = pixels / 4}) ==
          "photo: the picture is 400 x 304 pixels; allowed: at most 30400 pixels in all");
    CHECK(refusal(plain, {.max_pixels = pixels / 4}, always(0.5)) == "taken");
}

TEST_CASE("a photograph that claims to be enormous is refused at once", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    Bytes jpeg = jpeg_of(quarters(), 48, 32, TJPF_RGB, TJSAMP_444);
    const auto claim = [&](unsigned width, unsigned height) {
        for (std::size_t at = 2; at + 9 < jpeg.size(); ++at)
            if (jpeg[at] == 0xFF && jpeg[at + 1] == 0xC0) // the frame: length, precision, height, width
                for (const int k : {0, 1})
                    jpeg[at + 5 + k] = static_cast<std::uint8_t>(height >> (8 - 8 * k)),
                                  jpeg[at + 7 + k] = static_cast<std::uint8_t>(width >> (8 - 8 * k));
        return folder.put("p.jpg", jpeg);
    };
    CHECK(refusal(claim(65500, 65500), {}) ==
          "photo: the picture is 65500 x 65500 pixels; allowed: at most 20000 each way");
    CHECK(refusal(claim(65500, 65500), {}, always(0.125)) ==
          "photo: the picture is 65500 x 65500 pixels; allowed: at most 20000 each way");
    CHECK(refusal(claim(15000, 15000), {}) ==
          "photo: the picture is 15000 x 15000 pixels; allowed: at most 100000000 pixels in all");
    CHECK(refusal(claim(15000, 15000), {}, always(0.125)) == "photo: the picture is damaged or cut short");
}

TEST_CASE("a picture of another kind is no PNG by its name", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    // GIF, one pixel (GIF89a); then a bitmap, a web picture and a document by their first bytes.
    const Bytes gif{'G', 'I', 'F', '8', '9', 'a', 1,    0, 1, 0, 0x80, 0,    0, 0,    0,    0,   255,
                    255, 255, 0x2C, 0,  0,   0,   0,    1, 0, 1, 0,    0,    2, 2,    0x44, 1,   0,  0x3B};
    for (const Bytes& other : {gif, Bytes{'B', 'M', 1, 2, 3, 4, 5, 6, 7, 8}, Bytes{'R', 'I', 'F', 'F', 4, 0, 0, 0},
                               Bytes{'%', 'P', 'D', 'F', '-', '1', '.', '5'}, Bytes{0}})
        CHECK(refusal(folder.put("p.png", other), {}) ==
              "photo: is neither PNG nor JPEG; allowed: a PNG or JPEG picture");
    CHECK(refusal(folder.put("p.jpg", Bytes{}), {}) == "photo: the file is empty; allowed: a PNG or JPEG picture");
}
