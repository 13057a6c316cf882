// The pictures of the demo plan presets/plans/orchard against the program beside them, and what its plan relies on.
#include "draw.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

using namespace orchard;
using tidemark::grid::GreyPicture;

namespace {

const std::filesystem::path folder = std::filesystem::path(TIDEMARK_PRESETS_DIR) / "plans/orchard";

GreyPicture mask(const std::string& name) { return tidemark::grid::read_grey(folder / "masks" / (name + ".png")); }
int code(float share) { return static_cast<int>(std::lround(255 * share)); }

/// Cells at least half inside that can be reached from the first such one by steps to the side, up and down.
std::size_t reached(const GreyPicture& m) {
    std::vector<char> seen(m.value.size(), 0);
    std::vector<int> todo{static_cast<int>(
        std::find_if(m.value.begin(), m.value.end(), [](float v) { return v >= 0.5f; }) - m.value.begin())};
    std::size_t count = 0;
    while (!todo.empty()) {
        const int at = todo.back(), x = at % m.width, y = at / m.width;
        todo.pop_back();
        if (seen[static_cast<std::size_t>(at)] || m.value[static_cast<std::size_t>(at)] < 0.5f)
            continue;
        seen[static_cast<std::size_t>(at)] = 1;
        ++count;
        if (x > 0)
            todo.push_back(at - 1);
        if (x + 1 < m.width)
            todo.push_back(at + 1);
        if (y > 0)
            todo.push_back(at - m.width);
        if (y + 1 < m.height)
            todo.push_back(at + m.width);
    }
    return count;
}

} // namespace

TEST_CASE("the committed reference of the orchard is what its program draws", "[law][orchard]") {
    const auto picture = tidemark::grid::read_picture(folder / "reference.png");
    REQUIRE(picture.width == 380 * reference_pixels_per_mm);
    REQUIRE(picture.height == 280 * reference_pixels_per_mm);
    int looked_at = 0, differ = 0;
    for (int y = 3; y < picture.height; y += 11)
        for (int x = y % 13; x < picture.width; x += 13, ++looked_at) {
            std::uint8_t rgb[3];
            reference_pixel(x, y, rgb);
            differ += std::equal(rgb, rgb + 3, picture.at(x, y)) ? 0 : 1;
        }
    CAPTURE(looked_at);
    CHECK(differ == 0);
}

TEST_CASE("the committed masks of the orchard are what its program draws", "[law][orchard]") {
    std::vector<GreyPicture> masks;
    for (const Area& area : areas())
        masks.push_back(mask(area.name));
    std::vector<float> share(areas().size());
    std::map<std::string, int> differ;
    for (int y = 2; y < masks[0].height; y += 7)
        for (int x = y % 11; x < masks[0].width; x += 11) {
            mask_pixel(x, y, share);
            for (std::size_t k = 0; k < masks.size(); ++k) {
                const int drawn = code(share[k]), stored = code(masks[k].at(x, y));
                if (drawn != stored && !(areas()[k].one_piece && stored == 0)) // a piece that was dropped
                    ++differ[areas()[k].name];
            }
        }
    CHECK(differ == std::map<std::string, int>{});
}

TEST_CASE("the orchard has a mask for each area and no other", "[law][orchard]") {
    std::set<std::string> files, names;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "masks"))
        files.insert(entry.path().filename().string());
    for (const Area& area : areas())
        names.insert(std::string(area.name) + ".png");
    CHECK(files == names);
}

TEST_CASE("the orchard's midtones are one piece", "[law][orchard]") {
    const GreyPicture m = mask("midtones");
    const auto inside =
        static_cast<std::size_t>(std::count_if(m.value.begin(), m.value.end(), [](float v) { return v >= 0.5f; }));
    CHECK(inside > m.value.size() / 3);
    CHECK(reached(m) == inside);
}

TEST_CASE("the orchard's areas neither overlap nor leave gaps above the grass", "[law][orchard]") {
    std::vector<GreyPicture> things;
    for (const char* name : {"sky", "far-trees", "shed", "wall", "gate-gap", "hives", "path", "grass-light",
                             "orchard-trees", "pickers", "cart"})
        things.push_back(mask(name));
    const int foot_of_the_wall = static_cast<int>(141 * mask_pixels_per_mm);
    int least = 999, most = 0;
    for (int y = 0; y < things[0].height; ++y)
        for (int x = 0; x < things[0].width; ++x) {
            int sum = 0;
            for (const GreyPicture& m : things)
                sum += code(m.at(x, y));
            most = std::max(most, sum);
            if (y < foot_of_the_wall)
                least = std::min(least, sum);
        }
    CHECK(most <= 255 + 5); // each of the areas that share a pixel rounds for itself
    CHECK(least >= 255 - 5);
}

TEST_CASE("both pickers' heads lie across the eye line", "[law][orchard]") {
    const GreyPicture heads = mask("picker-heads");
    const int row = static_cast<int>(128 * mask_pixels_per_mm);
    int runs = 0;
    for (int x = 1; x < heads.width; ++x)
        runs += heads.at(x, row) >= 0.5f && heads.at(x - 1, row) < 0.5f ? 1 : 0;
    CHECK(runs == 2);
}
