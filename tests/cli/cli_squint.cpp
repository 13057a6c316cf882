// `tidemark squint` from outside: its files, what it says, changes in the order they are given, odd and broken pictures.
#include <catch2/catch.hpp>

#include "grid/csv.h"
#include "grid/picture.h"
#include "support/program_run.h"

#include <fmt/core.h>

using namespace tidemark;
using namespace tidemark::tests;

namespace {

/// 280 × 200: light above, dark below, a midtone patch in each half.
grid::Picture scene() {
    grid::Picture p{280, 200, {}};
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 280; ++x) {
            const bool patch = x > 60 && x < 120 && ((y > 30 && y < 70) || (y > 130 && y < 170));
            p.rgb.insert(p.rgb.end(), 3, patch ? 130 : y < 100 ? 235 : 40);
        }
    return p;
}

grid::CsvTable table(const ProgramRun& tidemark, const std::string& name) {
    return grid::CsvTable::parse(tidemark.bytes(name), name);
}

} // namespace

TEST_CASE("squint writes masses whose tables, masks and words agree", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", grid::png_bytes(scene()));
    const Said said = tidemark("squint photo.png --out m --simplify 2");
    INFO(said.err);
    REQUIRE(said.code == 0);
    CHECK(said.err.empty());
    CHECK_THAT(said.out, Catch::StartsWith("4 masses: 1 of lights, 2 of midtones, 1 of darks.") &&
                             Catch::Contains("92 % of all that is not light hangs together.") && Catch::Contains("Begin at "));
    const grid::CsvTable masses = table(tidemark, "m/masses.csv");
    REQUIRE(masses.rows() == 4);
    double share = 0, area = 0;
    for (std::size_t k = 0; k < masses.rows(); ++k)
        share += masses.number(k, "share_pct"), area += masses.number(k, "area_mm2");
    CHECK(share == Approx(100).margin(0.05));
    CHECK(area == Approx(280.0 * 200).epsilon(1e-3)); // a millimetre a pixel
    CHECK(table(tidemark, "m/borders.csv").rows() == 3);
    std::vector<grid::GreyPicture> masks;
    for (const char* name : {"lights", "midtones", "darks"}) {
        masks.push_back(grid::read_grey(tidemark.path(fmt::format("m/masks/{}.png", name))));
        REQUIRE(masks.back().width == 1120);
    }
    bool soft = false;
    for (std::size_t p = 0; p < masks[0].value.size(); ++p) {
        int codes = 0;
        for (const auto& mask : masks)
            codes += static_cast<int>(std::lround(255 * mask.value[p]));
        REQUIRE(codes == 255);
        soft = soft || (masks[0].value[p] > 0.1f && masks[0].value[p] < 0.9f);
    }
    CHECK(soft);
    REQUIRE(tidemark("squint photo.png --out m --groups 5").code == 0); // masks of other groups go
    CHECK_FALSE(std::filesystem::exists(tidemark.path("m/masks/midtones.png")));
    REQUIRE(tidemark("squint photo.png --out m --simplify 2").code == 0);
    CHECK_FALSE(std::filesystem::exists(tidemark.path("m/masks/group-0.png")));
    for (const char* name : {"value-map", "groups", "masses", "connected"})
        CHECK(grid::read_picture(tidemark.path(fmt::format("m/{}.png", name))).width >= 1120);
}

TEST_CASE("squint makes changes in the order they are given", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", grid::png_bytes(scene()));
    const auto names = [&](const std::string& edits) {
        const Said said = tidemark("squint photo.png --sheet-mm 140x100 --out m --simplify 2 " + edits);
        INFO(said.err);
        REQUIRE(said.code == 0);
        const grid::CsvTable t = table(tidemark, "m/masses.csv");
        std::string all;
        for (std::size_t k = 0; k < t.rows(); ++k)
            all += t.text(k, "group") + ":" + t.text(k, "name") + " ";
        return all;
    };
    CHECK(names("--name 3=shed --push shed:+1") == "lights:shed midtones: darks: ");
    CHECK(names("--push 3:-1 --name 3=shed") == names("--name 3=shed --push 3:-1"));
    const Said before = tidemark("squint photo.png --sheet-mm 140x100 --out m --simplify 2 --push shed:+1 --name 2=shed");
    CHECK(before.code == 2);
    CHECK_THAT(before.err, Catch::Contains("--push shed:+1: there is no mass \"shed\"; allowed: 1 to 4"));
}

TEST_CASE("a number read in what edits left answers to the next edit", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", grid::png_bytes(scene()));
    std::string arguments = "squint photo.png --sheet-mm 140x100 --out m --simplify 2 --split 4:0,92.5-140,92.5 --push 3:+1";
    const auto row_at = [](const grid::CsvTable& t, double x, double y) { // by its centre
        std::size_t row = 0;
        while (std::hypot(t.number(row, "centre_x_mm") - x, t.number(row, "centre_y_mm") - y) > 1) ++row;
        return row;
    };
    const Said split = tidemark(arguments);
    REQUIRE(split.code == 0);
    CHECK_THAT(split.out, Catch::StartsWith("--split 4:0,92.5-140,92.5 made 5.\n--push 3:+1 joined 3 to 1: 1 is its number now.\n"));
    const grid::CsvTable shown = table(tidemark, "m/masses.csv");
    const std::size_t strip = row_at(shown, 70, 96.25), patch = row_at(shown, 45, 75); // at the foot; in the dark
    CHECK(shown.text(strip, "mass") == "5");
    CHECK(shown.text(patch, "mass") == "2");
    CHECK(shown.text(patch, "neighbours") == "4");
    const grid::CsvTable borders = table(tidemark, "m/borders.csv");
    CHECK(borders.text(borders.rows() - 1, "mass") == "4");
    CHECK(borders.text(borders.rows() - 1, "neighbour") == "5");
    arguments += " --push " + shown.text(strip, "mass") + ":+1 --push " + shown.text(patch, "mass") + ":+1";
    REQUIRE(tidemark(arguments).code == 0);
    const grid::CsvTable after = table(tidemark, "m/masses.csv");
    CHECK(shown.text(strip, "group") == "darks");
    CHECK(after.text(row_at(after, 70, 96.25), "group") == "midtones");
    CHECK(after.text(row_at(after, 45, 75), "group") == "lights");
    CHECK(after.text(row_at(after, 45, 75), "mass") == "2");
    std::string by_masks = "squint photo.png --sheet-mm 140x100 --masks m/masks --out by-masks"; // numbered afresh
    REQUIRE(tidemark(by_masks).code == 0);
    const grid::CsvTable fresh = table(tidemark, "by-masks/masses.csv");
    const std::string number = fresh.text(row_at(fresh, 45, 75), "mass");
    CHECK(number == "2");
    by_masks += " --push " + number + ":-1";
    REQUIRE(tidemark(by_masks).code == 0);
    const grid::CsvTable pushed = table(tidemark, "by-masks/masses.csv");
    CHECK(pushed.text(row_at(pushed, 45, 75), "group") == "midtones");
    CHECK(pushed.text(row_at(pushed, 45, 75), "mass") == number);
}

TEST_CASE("squint splits, merges, keeps a post, takes a part of the picture, begins where it is told", "[cli]") {
    const ProgramRun tidemark;
    grid::Picture with_post = scene();
    for (int y = 20; y < 100; ++y)
        std::fill_n(with_post.at(200, y), 3, std::uint8_t{40}); // 1 x 80 mm
    tidemark.put("photo.png", grid::png_bytes(scene()));
    tidemark.put("post.png", grid::png_bytes(with_post));
    const auto squinted = [&](const std::string& arguments) {
        const Said said = tidemark("squint " + arguments + " --sheet-mm 140x100 --out m");
        INFO(arguments << ": " << said.err);
        REQUIRE(said.code == 0);
        return table(tidemark, "m/masses.csv");
    };
    const auto areas = [](const grid::CsvTable& t, const std::string& group) {
        std::vector<double> all;
        for (std::size_t k = 0; k < t.rows(); ++k)
            if (t.text(k, "group") == group) all.push_back(t.number(k, "area_mm2"));
        return all;
    };
    const grid::CsvTable whole = squinted("photo.png");
    CHECK(areas(whole, "darks").size() == 1);
    const std::vector<double> halves = areas(squinted("photo.png --split 4:0,92.5-140,92.5"), "darks"); // below both patches
    REQUIRE(halves.size() == 2);
    CHECK(halves[0] + halves[1] == Approx(areas(whole, "darks")[0]).epsilon(1e-4));
    CHECK(halves[1] == Approx(140 * 7.5).epsilon(0.01));
    const grid::CsvTable merged = squinted("photo.png --merge 1+3");
    CHECK(merged.rows() == 3);
    CHECK(areas(merged, "lights")[0] == Approx(140 * 50).epsilon(0.01));
    CHECK(areas(squinted("post.png --groups 2 --simplify 6"), "darks").front() < areas(squinted("post.png --groups 2 --simplify 6 --keep-thin"), "darks").front() - 15);
    const grid::CsvTable part = squinted("photo.png --crop 0,0,140x100");
    CHECK(part.rows() == 2);
    CHECK(areas(part, "lights").size() == 1);
    const Said begun = tidemark("squint photo.png --sheet-mm 140x100 --out m --start 125,75");
    CHECK_THAT(begun.out, Catch::Contains("Begin at 125, 75 mm"));
}

TEST_CASE("masks that were changed by hand are taken back by squint, draft and transfer, and stay as they are", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", grid::png_bytes(scene()));
    REQUIRE(tidemark("squint photo.png --sheet-mm 140x100 --out m").code == 0);
    grid::GreyPicture darks = grid::read_grey(tidemark.path("m/masks/darks.png"));
    for (int y = 40; y < 100; ++y) // 20 x 15 mm in the light
        for (int x = 400; x < 480; ++x) darks.value[static_cast<std::size_t>(y) * darks.width + x] = 1;
    tidemark.put("m/masks/darks.png", grid::png_bytes(darks));
    const std::string mine = tidemark.bytes("m/masks/darks.png");
    const Said said = tidemark("squint photo.png --sheet-mm 140x100 --masks m/masks --out m");
    INFO(said.err);
    REQUIRE(said.code == 0);
    CHECK_THAT(said.out, Catch::Contains("Two masks cover 300.0 mm2: what was added there counts.") &&
                             Catch::Contains("5 masses: 1 of lights, 2 of midtones, 2 of darks."));
    CHECK(tidemark.bytes("m/masks/darks.png") == mine);
    const Said other = tidemark("squint photo.png --sheet-mm 140x100 --simplify 2 --out other");
    REQUIRE(other.code == 0); // masks of other options: what was added is told by what they were made from
    const Said traced = tidemark("transfer photo.png --masks m/masks --sheet-mm 140x100 --out t.svg");
    CHECK_THAT(traced.out, Catch::StartsWith("5 masses in outline"));
    REQUIRE(tidemark("draft photo.png --sheet-mm 140x100 --masks m/masks --out plan --name 5=cart").code == 0);
    const grid::GreyPicture painted = grid::read_grey(tidemark.path("plan/masks/darks.png"));
    CHECK(painted.at(440, 70) == 1);
    CHECK(painted.at(440, 30) == 0);
    CHECK_THAT(tidemark.bytes("plan/plan.toml"), Catch::Contains("[area.cart]") && Catch::Contains("# rehearsed: begun at"));
    for (const char* arguments : {"squint photo.png --sheet-mm 140x100 --masks nowhere --out n", "squint photo.png --sheet-mm 140x100 --masks m/masks --thresholds 50 --out n",
                                  "squint photo.png --sheet-mm 140x100 --masks m/masks --keep-thin --out n", "squint photo.png --sheet-mm 140x100 --masks m/masks --groups 4 --out n",
                                  "squint photo.png --masks m/masks --sheet-mm 200x200 --out n", "draft photo.png --sheet-mm 140x100 --masks m/masks --out m",
                                  "draft photo.png --sheet-mm 140x100 --out m", "draft photo.png --sheet-mm 140x100 --name 2=darks --out n", "draft photo.png --sheet-mm 140x100 --name 2=paper --out n", "squint photo.png --sheet-mm 140x100 --out m",
                                  "squint photo.png --sheet-mm 140x100 --out plan", "squint photo.png --sheet-mm 140x100 --masks m/masks --smallest 9 --out n",
                                  "transfer photo.png --masks m/masks --sheet-mm 140x100 --out m/masks/darks.png",
                                  "squint photo.png --sheet-mm 140x100 --split 1:500,5-600,9 --out n"}) {
        const Said wrong = tidemark(arguments);
        INFO(arguments << ": " << wrong.err);
        CHECK(wrong.code == 2);
        CHECK(std::count(wrong.err.begin(), wrong.err.end(), '\n') == 1);
        CHECK_FALSE(std::filesystem::exists(tidemark.path("n/masses.csv")));
        CHECK_FALSE(std::filesystem::exists(tidemark.path("n/plan.toml")));
        CHECK(tidemark.bytes("m/masks/darks.png") == mine);
    }
}

TEST_CASE("masks may be named by squint's folder, and those of another picture are noticed", "[cli]") {
    const ProgramRun tidemark;
    grid::Picture upside_down = scene();
    for (std::uint8_t& v : upside_down.rgb) v = static_cast<std::uint8_t>(270 - v); // darks and lights changed places
    tidemark.put("photo.png", grid::png_bytes(scene()));
    tidemark.put("other.png", grid::png_bytes(upside_down));
    REQUIRE(tidemark("squint photo.png --sheet-mm 140x100 --out m").code == 0);
    const std::string made = tidemark.bytes("m/masks/darks.png");
    const Said own = tidemark("squint photo.png --sheet-mm 140x100 --masks m --out m");
    INFO(own.err);
    REQUIRE(own.code == 0);
    CHECK_THAT(own.out, Catch::StartsWith("4 masses"));
    CHECK(tidemark.bytes("m/masks/darks.png") == made);
    for (const char* command : {"squint other.png --out n", "transfer other.png --out n.svg"}) {
        const Said other = tidemark(std::string(command) + " --sheet-mm 140x100 --masks m");
        CHECK(other.code == 0);
        CHECK_THAT(other.out, Catch::Contains("Are these the masks of this picture? Over it they don't rise in lightness by 3 L* from each group to the next: darks L* "));
    }
    const Said kept = tidemark("draft photo.png --sheet-mm 140x100 --masks m --out m"); // would be written over
    CHECK(kept.code == 2);
}

TEST_CASE("squint refuses what it can't use in one line, and takes odd pictures as they are", "[cli]") {
    const ProgramRun tidemark;
    const std::vector<std::uint8_t> whole = grid::png_bytes(scene());
    tidemark.put("photo.png", whole);
    tidemark.put("cut.png", std::vector<std::uint8_t>(whole.begin(), whole.begin() + static_cast<long>(whole.size()) / 2));
    tidemark.put("empty.jpg", std::string());
    tidemark.put("gif.png", std::string("GIF89a\x01\x00\x01\x00\x80", 11));
    std::vector<std::uint8_t> huge = whole; // claims 100 000 × 100 000; the header's sum no longer fits, either
    huge[16] = 0, huge[17] = 1, huge[18] = 0x86, huge[19] = 0xa0, huge[20] = 0, huge[21] = 1, huge[22] = 0x86, huge[23] = 0xa0;
    tidemark.put("huge.png", huge);
    for (const char* arguments :
         {"cut.png", "empty.jpg", "gif.png", "huge.png", "missing.png", "photo.png --groups 1", "photo.png --groups 8", "photo.png --groups 5 --thresholds 35,65",
          "photo.png --thresholds 60,40", "photo.png --thresholds 0", "photo.png --simplify 0", "photo.png --simplify 11",
          "photo.png --smallest -1", "photo.png --sheet-mm 5x5", "photo.png --crop 1,2", "photo.png --merge 3", "photo.png --merge 1+9",
          "photo.png --push 1", "photo.png --push 1:x", "photo.png --name 1", "photo.png --split 1:2", "photo.png --keep-light 9",
          "photo.png --keep-light 900,9", "photo.png --keep-light 10,75", "photo.png --paper none", "photo.png --room none",
          "photo.png --pace 0", "photo.png --start here", "photo.png --start 1e300,5", "photo.png --keep-light 1e300,5",
          "photo.png --split 1:1e300,0-5,5"}) {
        const Said said = tidemark(fmt::format("squint {}{} --out no", arguments, std::string(arguments).find("--sheet-mm") == std::string::npos ? " --sheet-mm 140x100" : ""));
        INFO(arguments << ": " << said.err);
        CHECK(said.code == 2);
        CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
        CHECK_FALSE(std::filesystem::exists(tidemark.path("no/masses.png")));
    }
    const auto flat = [](int w, int h, std::uint8_t grey) {
        return grid::png_bytes(grid::Picture{w, h, std::vector<std::uint8_t>(std::size_t{3} * w * h, grey)});
    };
    for (const auto& [name, bytes] : {std::pair("white.png", flat(300, 200, 255)), std::pair("black.png", flat(300, 200, 0)),
                                      std::pair("two.png", flat(2, 1, 90))}) {
        tidemark.put(name, bytes);
        const Said said = tidemark(fmt::format("squint {} --out odd", name));
        INFO(name << ": " << said.err);
        CHECK(said.code == 0);
        CHECK_THAT(said.out, Catch::Contains("There is one mass: nothing to part."));
    }
}

TEST_CASE("squint and draft never write over the picture they read", "[cli]") {
    const ProgramRun tidemark;
    const std::vector<std::uint8_t> whole = grid::png_bytes(scene());
    tidemark.put("groups.png", whole);
    tidemark.put("reference.png", whole);
    for (const char* arguments : {"squint groups.png --out .", "draft ./reference.png --out ."}) {
        const Said said = tidemark(arguments);
        INFO(said.err);
        CHECK(said.code == 2);
        CHECK_THAT(said.err, Catch::Contains("where the picture lies"));
    }
    CHECK(tidemark.bytes("groups.png") == std::string(whole.begin(), whole.end()));
    CHECK(tidemark.bytes("reference.png") == std::string(whole.begin(), whole.end()));
}
