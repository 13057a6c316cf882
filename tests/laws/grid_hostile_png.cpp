#include <catch2/catch.hpp>
#include <chrono>

#include "grid/picture.h"
#include "grid/problem.h"
#include "support/png_builder.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using tests::Bytes;

namespace {

std::string refusal(const std::filesystem::path& path, const std::string& shown = "sky.png",
                    const grid::PictureLimits& limits = {}) {
    try {
        grid::read_picture(path, shown, limits);
    } catch (const grid::BadInput& bad) {
        return bad.what();
    }
    return "taken";
}

grid::Picture small() {
    grid::Picture p{9, 7, Bytes(9 * 7 * 3)};
    for (std::size_t k = 0; k < p.rgb.size(); ++k) p.rgb[k] = static_cast<std::uint8_t>(k * k * 31);
    return p;
}

} // namespace

TEST_CASE("a PNG cut off anywhere is refused in one line", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const Bytes whole = grid::png_bytes(small(), 2000);
    for (std::size_t length = 1; length < whole.size(); ++length) {
        const std::string line =
            refusal(folder.put("p.png", Bytes(whole.begin(), whole.begin() + static_cast<long>(length))));
        INFO("cut to " << length << " of " << whole.size());
        CHECK(line == "sky.png: the picture is damaged or cut short");
    }
    CHECK(refusal(folder.put("p.png", Bytes{})) == "sky.png: the file is empty; allowed: a PNG or JPEG picture");
    CHECK(refusal(folder.put("p.png", whole)) == "taken");
}

TEST_CASE("one wrong byte in what makes up a PNG is found", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const Bytes whole = grid::png_bytes(small());
    const grid::Picture as_drawn = small();
    for (std::size_t at = 8; at < whole.size(); ++at) {
        Bytes bent = whole;
        bent[at] ^= 0x10;
        const auto path = folder.put("p.png", bent);
        INFO("byte " << at);
        if (refusal(path) == "taken") CHECK(grid::read_picture(path).rgb == as_drawn.rgb); // in the sRGB chunk
    }
}

TEST_CASE("a picture that claims to be enormous is refused at once", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const auto begin = std::chrono::steady_clock::now();
    CHECK(refusal(folder.put("p.png", tests::png_of(100000, 100000, 8, 2, {0}))) ==
          "sky.png: the picture is 100000 x 100000 pixels; allowed: at most 20000 each way");
    CHECK(refusal(folder.put("p.png", tests::png_of(15000, 15000, 8, 2, {0}))) ==
          "sky.png: the picture is 15000 x 15000 pixels; allowed: at most 100000000 pixels in all");
    CHECK(refusal(folder.put("p.png", tests::png_of(0, 5, 8, 2, {0}))) == "sky.png: the picture has no pixels");
    CHECK(refusal(folder.put("p.png", tests::png_of(0xFFFFFFFFu, 1, 8, 2, {0}))) ==
          "sky.png: the picture is 4294967295 x 1 pixels; allowed: at most 20000 each way");
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::milliseconds(500));
    CHECK(refusal(folder.put("p.png", grid::png_bytes(small())), "sky.png", {.max_pixels = 62}) ==
          "sky.png: the picture is 9 x 7 pixels; allowed: at most 62 pixels in all");
    CHECK(refusal(folder.put("p.png", grid::png_bytes(small())), "sky.png", {.max_file_bytes = 40}) ==
          "sky.png: the file is too large; allowed: at most 40 bytes");
}

TEST_CASE("a small file that inflates without end is refused", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    // 1 MB of repeats of 258 bytes, which come to 160 MB, behind a header of 4 x 4 pixels.
    const Bytes bomb = tests::png_of_idat(4, 4, 8, 2, tests::endless_zeros(1'000'000));
    CHECK(refusal(folder.put("p.png", bomb)) == "sky.png: the PNG holds far more data than its size in pixels asks for");
}

TEST_CASE("pictures that are not there, or not pictures, are named", "[wrong][grid]") {
    const tests::TemporaryFolder folder;
    const auto gone = folder.path() / "none.png";
    CHECK(refusal(gone, "plan.toml:12: mask \"none.png\"") == "plan.toml:12: mask \"none.png\": no such file");
    CHECK(refusal(gone, "") == gone.string() + ": no such file");
    CHECK(refusal(folder.path()) == "sky.png: is a folder; allowed: a file");
    CHECK(refusal(folder.put("p.png", std::string("GIF89a and so on"))) ==
          "sky.png: is neither PNG nor JPEG; allowed: a PNG or JPEG picture");
}

TEST_CASE("masks keep sixteen bits, and alpha lies over white paper", "[law][grid]") {
    const tests::TemporaryFolder folder;
    // Grey, 16 bits: 0x1234, 0x1235.
    const auto deep = grid::read_grey(folder.put("g.png", tests::png_of(2, 1, 16, 0, {0, 0x12, 0x34, 0x12, 0x35})));
    CHECK(deep.value[0] == 0x1234 / 65535.0f);
    CHECK(deep.value[1] == 0x1235 / 65535.0f);
    // Grey with alpha, 8 bits: black at full, half and no cover.
    const auto path = folder.put("a.png", tests::png_of(3, 1, 8, 4, {0, 0, 255, 0, 128, 0, 0}));
    const auto clear = grid::read_grey(path);
    CHECK(clear.value[0] == 0);
    CHECK(clear.value[1] == Approx(1 - 128 / 255.0));
    CHECK(clear.value[2] == 1);
    CHECK(grid::read_picture(path).rgb == Bytes{0, 0, 0, 127, 127, 127, 255, 255, 255});
    // Eight steps of grey in one byte: 1 bit a pixel.
    const auto bits = grid::read_grey(folder.put("b.png", tests::png_of(8, 1, 1, 0, {0, 0xA0})));
    CHECK(bits.value == std::vector<float>{1, 0, 1, 0, 0, 0, 0, 0});
}
