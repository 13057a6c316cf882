// Pictures written as JPEG, read back by the program's own reader.
#include <catch2/catch.hpp>
#include <cmath>

#include "grid/picture.h"
#include "support/refused.h"
#include "support/temporary_folder.h"

using namespace tidemark;

namespace {

grid::Picture slopes(int width, int height) {
    grid::Picture p{width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height)};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            std::uint8_t* at = p.at(x, y);
            at[0] = static_cast<std::uint8_t>(40 + 2 * x), at[1] = static_cast<std::uint8_t>(220 - 2 * y);
            at[2] = static_cast<std::uint8_t>(120 + x - y);
        }
    return p;
}

} // namespace

TEST_CASE("what is written as JPEG reads back nearly the same", "[law][grid]") {
    const tests::TemporaryFolder folder;
    const grid::Picture p = slopes(83, 57);
    folder.put("p.jpg", grid::jpeg_bytes(p, 90));
    const grid::Picture back = grid::read_picture(folder.path() / "p.jpg");
    REQUIRE(back.width == 83);
    REQUIRE(back.height == 57);
    double sum = 0;
    for (std::size_t k = 0; k < p.rgb.size(); ++k) sum += std::abs(p.rgb[k] - back.rgb[k]);
    CHECK(sum / static_cast<double>(p.rgb.size()) < 2); // codes of 255; smooth slopes lose little at quality 90
    CHECK(grid::jpeg_bytes(p, 40).size() < grid::jpeg_bytes(p, 90).size());
    CHECK(grid::jpeg_bytes(p) == grid::jpeg_bytes(p));
}

TEST_CASE("a JPEG of no size or quality is refused", "[law][grid]") {
    CHECK_THROWS_AS(grid::jpeg_bytes({}), std::invalid_argument);
    CHECK_THROWS_AS(grid::jpeg_bytes(slopes(4, 4), 0), std::invalid_argument);
    CHECK_THROWS_AS(grid::jpeg_bytes(slopes(4, 4), 101), std::invalid_argument);
    CHECK(!grid::jpeg_bytes(slopes(1, 1), 1).empty());
    CHECK(!grid::jpeg_bytes(slopes(4, 4), 100).empty());
}
