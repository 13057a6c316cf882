/// Masks that a painter has changed, taken back.
#include "grid/files.h"
#include "grid/problem.h"
#include "reference/picture_masses.h"
#include "reference_pictures.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <unistd.h>

using namespace tidemark;
using namespace tidemark::reference;

namespace {

const Looking how{.sheet = {140, 92}}; // places are told in half millimetres

PictureMasses seen() { return masses_in(tests::landscape(640, 420), how); }

PictureMasses by(std::vector<grid::GreyPicture> masks) {
    Looking with = how;
    with.masks = std::move(masks);
    return masses_in(tests::landscape(640, 420), with);
}

/// A square of `value` in one mask, 20 half millimetres wide.
void put(grid::GreyPicture& mask, double left, double top, float value) {
    const double scale = mask.width / 280.0;
    for (int y = static_cast<int>(top * scale); y < static_cast<int>((top + 20) * scale); ++y)
        for (int x = static_cast<int>(left * scale); x < static_cast<int>((left + 20) * scale); ++x)
            mask.value[static_cast<std::size_t>(y) * mask.width + x] = value;
}

int group_at(const PictureMasses& m, double x, double y) {
    return m.groups.at(static_cast<int>(x * 0.5 * m.pixels_per_mm), static_cast<int>(y * 0.5 * m.pixels_per_mm));
}

struct Folder {
    std::filesystem::path path = std::filesystem::temp_directory_path() / ("tidemark-masks-" + std::to_string(getpid()));
    Folder() { std::filesystem::create_directories(path); }
    ~Folder() { std::filesystem::remove_all(path); }
};

} // namespace

TEST_CASE("masks that nobody has changed give the groups and masses they were made from", "[law][reference]") {
    const PictureMasses before = seen(), after = by(group_masks(before.groups));
    CHECK((after.groups.group == before.groups.group));
    CHECK((after.masses.of == before.masses.of));
    CHECK(after.unclaimed == 0);
    CHECK(after.claimed_twice == 0);
}

TEST_CASE("what is painted into one mask counts, though the others are left as they were", "[law][reference]") {
    const PictureMasses before = seen();
    for (int group = 0; group < before.groups.count; ++group) {
        std::vector<grid::GreyPicture> masks = group_masks(before.groups);
        put(masks[group], 200, 10, 1);
        const PictureMasses after = by(masks);
        CHECK(group_at(after, 210, 20) == group);
        CHECK((after.claimed_twice > 0) == (group_at(before, 210, 20) != group));
        for (std::size_t p = 0; p < after.groups.group.size(); ++p) {
            const double x = 2 * static_cast<double>(p % after.map.width) / after.pixels_per_mm, y = 2 * static_cast<double>(p / after.map.width) / after.pixels_per_mm;
            if ((x < 199 || x > 221 || y < 9 || y > 31) && after.groups.group[p] != before.groups.group[p])
                FAIL("changed at " << x << ", " << y);
        }
    }
}

TEST_CASE("what was added is told by what the masks were made from, whatever the picture itself has", "[law][reference]") {
    Looking by_hand = how;
    by_hand.groups = 2, by_hand.squint.thresholds = {95}; // all but the house dark
    const PictureMasses before = masses_in(tests::landscape(640, 420), by_hand);
    Looking with = how;
    with.masks = group_masks(before.groups);
    put(with.masks[0], 100, 110, 1); // into the house
    with.made_from = before.groups;
    const PictureMasses after = masses_in(tests::landscape(640, 420), with);
    CHECK(group_at(before, 110, 120) == 1);
    CHECK(group_at(after, 110, 120) == 0);
}

TEST_CASE("changed masks are known from those that are as they were made", "[law][reference]") {
    const Folder folder;
    const Groups g = seen().groups;
    CHECK_FALSE(masks_changed(folder.path));
    const auto write = [&](const std::string& name, const grid::GreyPicture& m) {
        grid::OutputFolder out(folder.path);
        out.write(name, grid::png_bytes(m));
        out.commit();
    };
    const std::vector<grid::GreyPicture> masks = group_masks(g);
    for (int k = 0; k < g.count; ++k)
        write(group_word(k, g.count) + ".png", masks[k]);
    CHECK(masks_changed(folder.path)); // nobody knows what they were made from
    write(made_from_name(g.count), made_from(g));
    CHECK_FALSE(masks_changed(folder.path));
    CHECK((read_made_from(folder.path, g.count)->group == g.group));
    grid::GreyPicture changed = masks[1];
    put(changed, 20, 20, 0.5f);
    write("midtones.png", changed);
    CHECK(masks_changed(folder.path));
}

TEST_CASE("what is wiped out of a mask goes to what lies nearest", "[law][reference]") {
    std::vector<grid::GreyPicture> masks(2, {280, 184, std::vector<float>(std::size_t{280} * 184, 0.0f)});
    for (int y = 0; y < 184; ++y)
        for (int x = 0; x < 280; ++x)
            masks[x < 100 ? 0 : 1].value[static_cast<std::size_t>(y) * 280 + x] = x < 100 || x >= 200 ? 1.0f : 0.0f;
    const PictureMasses after = by(masks);
    CHECK(group_at(after, 130, 90) == 0);
    CHECK(group_at(after, 170, 90) == 1);
    CHECK(static_cast<double>(after.unclaimed) / (4.0 * 184) == Approx(100).margin(1));
    CHECK(after.groups.count == 2);
    CHECK(after.groups.pixels[0] + after.groups.pixels[1] == static_cast<std::int64_t>(after.groups.group.size()));
}

TEST_CASE("masks of another size, and of a group without any pixel, are taken", "[law][reference]") {
    const PictureMasses before = seen();
    std::vector<grid::GreyPicture> small;
    for (const grid::GreyPicture& m : group_masks(before.groups))
        small.push_back(grid::resized(m, m.width / 2, m.height / 2));
    const PictureMasses after = by(small);
    std::int64_t other = 0;
    for (std::size_t p = 0; p < after.groups.group.size(); ++p)
        other += after.groups.group[p] != before.groups.group[p];
    CHECK(static_cast<double>(other) < 0.005 * static_cast<double>(after.groups.group.size()));
    small[1].value.assign(small[1].value.size(), 0.0f);
    const PictureMasses two = by(small);
    CHECK(two.groups.count == 3);
    CHECK(two.groups.pixels[1] == 0);
    CHECK(two.groups.thresholds[0] < two.groups.thresholds[1]);
}

TEST_CASE("masks of this picture rise in lightness from group to group, those of another are noticed", "[law][reference]") {
    const PictureMasses before = seen();
    CHECK(before.means_by_masks.empty());
    CHECK(rising(before.means_by_masks));
    std::vector<grid::GreyPicture> masks = group_masks(before.groups);
    CHECK(rising(by(masks).means_by_masks));
    for (grid::GreyPicture& m : masks)
        std::reverse(m.value.begin(), m.value.end()); // upside down: as of another picture
    CHECK_FALSE(rising(by(masks).means_by_masks));
    CHECK(rising({20, 23, std::nanf(""), 30}));
    CHECK_FALSE(rising({20, 22.9f, 30}));
    CHECK_FALSE(rising({20, std::nanf(""), 22}));
}

TEST_CASE("a folder of squint's is known by its masks folder", "[law][reference]") {
    const Folder folder;
    CHECK(masks_folder(folder.path) == folder.path);
    const auto put_all = [&](const std::string& into) {
        grid::OutputFolder out(folder.path);
        for (const char* name : {"darks.png", "lights.png"})
            out.write(into + name, grid::png_bytes(grid::GreyPicture{2, 2, {0, 0, 1, 1}}));
        out.commit();
    };
    put_all("masks/");
    CHECK(masks_folder(folder.path) == folder.path / "masks");
    CHECK(masks_folder(folder.path / "masks") == folder.path / "masks");
    put_all("");
    CHECK(masks_folder(folder.path) == folder.path);
}

TEST_CASE("masks of two groups and of three are told apart, though some go by the same names", "[law][reference]") {
    const PictureMasses before = seen();
    const Folder folder;
    const auto write = [&](const Groups& g) {
        grid::OutputFolder out(folder.path);
        const auto masks = group_masks(g);
        for (int k = 0; k < g.count; ++k)
            out.write(group_word(k, g.count) + ".png", grid::png_bytes(masks[k]));
        out.write(made_from_name(g.count), grid::png_bytes(made_from(g)));
        out.commit();
    };
    write(before.groups);
    CHECK_FALSE(masks_changed(folder.path));
    std::filesystem::remove(folder.path / "midtones.png");
    CHECK_FALSE(masks_changed(folder.path)); // the others are as they were
    for (const char* name : {"darks.png", "lights.png", "made-from-3.png"})
        std::filesystem::remove(folder.path / name);
    write(group_with(before.map, std::vector<float>{60}));
    CHECK_FALSE(masks_changed(folder.path));
    grid::OutputFolder out(folder.path);
    out.write("darks.png", grid::png_bytes(grid::GreyPicture{2, 2, {0, 0, 1, 1}}));
    out.commit();
    CHECK(masks_changed(folder.path));
}

TEST_CASE("a folder without masks, with a mask of another shape, or all black is refused", "[wrong][reference]") {
    const Folder folder;
    CHECK_THROWS_AS(read_group_masks(folder.path, 0, 280, 184), grid::BadInput);
    const auto write = [&](const std::string& name, const grid::GreyPicture& m) {
        grid::OutputFolder out(folder.path);
        out.write(name, grid::png_bytes(m));
        out.commit();
    };
    const auto flat = [](int w, int h, float value) { return grid::GreyPicture{w, h, std::vector<float>(std::size_t(w) * h, value)}; };
    write("darks.png", flat(280, 184, 0));
    write("lights.png", flat(280, 184, 0));
    REQUIRE(read_group_masks(folder.path, 0, 280, 184).size() == 2);
    CHECK_THROWS_AS(by(read_group_masks(folder.path, 0, 280, 184)), grid::BadInput);
    CHECK_THROWS_AS(read_group_masks(folder.path, 3, 280, 184), grid::BadInput); // midtones.png is not there
    write("lights.png", flat(184, 184, 1));
    try {
        read_group_masks(folder.path, 0, 280, 184);
        FAIL("accepted");
    } catch (const grid::BadInput& e) {
        CHECK_THAT(e.problems()[0].line(), Catch::Contains("lights.png: the mask is 184 x 184 pixels, 1 : 1; allowed: the sheet's 1.522 : 1"));
    }
}
