// The commands from outside, as a painter calls them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "grid/picture.h"
#include "support/png_builder.h"
#include "support/program_run.h"

namespace fs = std::filesystem;
using namespace tidemark;
using namespace tidemark::tests;

namespace {

/// A light sky, a mid hill and a dark tree, somewhat coloured or grey.
grid::Picture landscape(int width, int height, bool coloured) {
    grid::Picture picture{width, height, std::vector<std::uint8_t>(static_cast<std::size_t>(3 * width * height))};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const bool hill = y > height * (0.5 + 0.1 * std::sin(6.0 * x / width));
            const bool tree = std::hypot(x - 0.7 * width, y - 0.5 * height) < 0.2 * height;
            const int grey = tree ? 50 : hill ? 130 : 235;
            for (int c = 0; c < 3; ++c)
                picture.at(x, y)[c] = static_cast<std::uint8_t>(grey + (coloured ? 15 * (c - 1) : 0));
        }
    return picture;
}

std::vector<std::uint8_t> grey_png(const grid::Picture& picture) {
    grid::GreyPicture grey{picture.width, picture.height, {}};
    for (std::size_t k = 0; k < picture.rgb.size(); k += 3) grey.value.push_back(picture.rgb[k] / 255.0f);
    return grid::png_bytes(grey);
}

/// Files below a folder, with their bytes.
std::map<std::string, std::string> files_of(const ProgramRun& tidemark, const std::string& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(tidemark.path(folder)))
        if (entry.is_regular_file()) {
            const std::string name = fs::relative(entry.path(), tidemark.path(folder)).string();
            files[name] = tidemark.bytes(folder + "/" + name);
        }
    return files;
}

void drafts_and_rehearses(const std::vector<std::uint8_t>& png) {
    const ProgramRun tidemark;
    tidemark.put("picture.png", png);
    const Said drafted = tidemark("draft picture.png --out plan");
    INFO(drafted.err);
    REQUIRE(drafted.code == 0);
    CHECK_THAT(drafted.out, Catch::Contains("tidemark rehearse plan/plan.toml"));
    CHECK(tidemark("check plan/plan.toml").code == 0);
    const Said said = tidemark("rehearse plan/plan.toml --out sheet --cell 2 --until 5:00");
    INFO(said.err);
    CHECK(said.code == 0);
    CHECK_THAT(said.out, Catch::StartsWith("Stopped at 5:00, not dry yet\n") &&
                             Catch::EndsWith("Look at sheet/sheet.png\n"));
    std::set<std::string> names;
    for (const auto& [name, bytes] : files_of(tidemark, "sheet")) {
        names.insert(name);
        CHECK_FALSE(bytes.empty());
    }
    CHECK(names == std::set<std::string>{"sheet.png", "sheet-wet.png", "value-compare.png", "edges.csv", "stretches.csv", "marks.csv", "windows.csv",
                                         "values.csv", "mixes.csv", "brushes.csv", "record.csv", "ledger.csv", "report.html"});
}

} // namespace

TEST_CASE("help lists the commands", "[cli]") {
    const ProgramRun tidemark;
    const Said said = tidemark("--help");
    CHECK(said.code == 0);
    CHECK(said.err.empty());
    for (const char* command : {"\n  rehearse ", "\n  look ", "\n  ask ", "\n  check ", "\n  draft ", "\n  swatches ", "\n  transfer ", "\n  squint ", "\n  lesson "})
        CHECK_THAT(said.out, Catch::Contains(command));
    CHECK(tidemark("--version").out == "tidemark 0.1.0\n");
}

TEST_CASE("check prints a line for each area and step of the plan, and what was asked", "[cli]") {
    const ProgramRun tidemark;
    const Said said = tidemark("check " + two_pears);
    CHECK(said.code == 0);
    CHECK(said.err.empty());
    CHECK_THAT(said.out, Catch::Contains("a sheet of 150 × 110 mm, cold-pressed-300, temperate-studio, 13 steps\n"));
    // Heading, 9 areas, their columns, 13 steps, what + and ? are, the hand in all, clashes, from when on nobody knows;
    // then how dark 9 acts dry, with a heading, their columns, and two lines of what that means.
    CHECK(std::count(said.out.begin(), said.out.end(), '\n') == 28 + 13);
    CHECK_THAT(said.out, Catch::Contains("\n  stems: mask, "));
    CHECK_THAT(said.out, Catch::Contains("\n    0:00     0:01  wet the dark end (wet, 0:01 of hand)\n"));
}

TEST_CASE("check says how dark each mix dries, and how much pigment its place in the reference asks for", "[cli]") {
    const ProgramRun tidemark;
    const std::string out = tidemark("check " + two_pears).out;
    CHECK_THAT(out, Catch::Contains("\n  mix          step                              dry  wet  reference\n"
                                    "  wall         wall on white paper                52   48   52: close\n"));
    CHECK_THAT(out, Catch::Contains("\n  wall-dark    drop in the dark over wall         31   27   36: 0.6 times the "
                                    "pigment or drops\n"));
    CHECK_THAT(out, Catch::Contains("\n  pear-gold    left pear, gold on white paper     83   79   77: 1.9 times the "
                                    "pigment, or a second pass\n"));
    const std::string head = "tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"hot-pressed-300\"\n"
                             "[mix.grey]\nPBk9 = 1\n[mix.breath]\nPY150 = 0.1\n";
    const std::string washes = "[[step]]\ndo = \"wash\"\nmix = \"grey\"\nfilm_um = 100\n"
                               "[[step]]\ndo = \"wash\"\nmix = \"breath\"\nfilm_um = 100\n";
    tidemark.put("plan.toml", head + washes);
    CHECK_THAT(tidemark("check plan.toml").out, // nothing to compare with
               Catch::Contains("\n  mix     step                 dry  wet\n  grey    wash on white paper ") &&
                   Catch::Contains("\n  breath  wash 2 over grey ") && !Catch::Contains("reference"));
    const auto grey_picture = [&](std::uint8_t grey) {
        tidemark.put("grey.png", grid::png_bytes(grid::Picture{40, 30, std::vector<std::uint8_t>(3 * 40 * 30, grey)}));
    };
    tidemark.put("plan.toml", head + washes + "[reference]\npicture = \"grey.png\"\n");
    grey_picture(10);
    CHECK_THAT(tidemark("check plan.toml").out, Catch::Contains("    -: later acts cover it\n") &&
                                                    Catch::Contains(": never that dark: its darkest is "));
    grey_picture(240);
    CHECK_THAT(tidemark("check plan.toml").out, Catch::Contains(": too dark below already: "));
    grey_picture(200);
    tidemark.put("plan.toml", head + "[mix.white]\nPW6 = 30\nPY42 = 0.1\n[reference]\npicture = \"grey.png\"\n"
                                     "[[step]]\ndo = \"body\"\nmix = \"white\"\npaint_g_m2 = 60\n");
    CHECK_THAT(tidemark("check plan.toml").out, Catch::Contains(" lighter, as white is\n"));
    tidemark.put("plan.toml", head + "[reference]\npicture = \"grey.png\"\n[[step]]\ndo = \"wet\"\nwater_g_m2 = 50\n");
    CHECK_THAT(tidemark("check plan.toml").out, !Catch::Contains("How dark"));
}

// 12 cm² of 100 µm at 1 cm²/s: 12 s of painting, and 0.12 mL from a brush that gives 0.08: one pause. A felt mark of
// rough paper moves some µL.
TEST_CASE("check says how long the hand is busy, and which acts fall due meanwhile", "[cli]") {
    const ProgramRun tidemark;
    const std::string head = "tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"hot-pressed-300\"\n[mix.grey]\nPBk9 = 1\n";
    const std::string wash = "[[step]]\ndo = \"wash\"\nmix = \"grey\"\nfilm_um = 100\npace_cm2_s = 1\n";
    const std::string brush = "brush = \"round-4\"\nrefill_s = 20\n";
    const std::string drops = "[[step]]\ndo = \"charge\"\nmix = \"grey\"\ndrops = 4\neach_s = 2\n";
    tidemark.put("plan.toml", head + wash + brush + drops + "at = \"0:20\"\n" + drops + "at = \"0:21\"\n");
    const Said said = tidemark("check plan.toml");
    CHECK(said.code == 0);
    CHECK_THAT(said.out, Catch::Contains("   begins    ends\n"
                                         "    0:00     0:32  wash (wash, 0:32 of hand with 1 refill)\n"));
    CHECK_THAT(said.out, Catch::Contains(
                             "    0:32     0:40  charge (charge, 0:08 of hand)\n"
                             "    0:40     0:48  charge 2 (charge, 0:08 of hand)\n"
                             "A + marks the earliest minute: a wait for a stage comes before it. A ? is the end of such a "
                             "wait.\n"
                             "The hand is busy for 0:48 in all, 0:20 of it filling the brush 1 time.\n"
                             "2 acts are due while the hand is busy with another:\n"
                             "  \"charge\" is due at 0:20, but the hand has \"wash\" until 0:32: it begins at 0:32 at the "
                             "earliest\n"
                             "  \"charge 2\" is due at 0:21, but the hand has \"wash\" until 0:32, then \"charge\" until 0:40: "
                             "it begins at 0:40 at the earliest\n"));
    tidemark.put("plan.toml", head + wash + "[[step]]\ndo = \"dry\"\nuntil = \"damp\"\n" + drops + drops + "at = \"20:00\"\n" +
                                  drops + "at = \"20:01\"\n");
    CHECK_THAT(tidemark("check plan.toml").out,
               Catch::Contains("\n    0:12        ?  dry (dry)\n    0:12+    0:20+ charge (charge, 0:08 of hand)\n") &&
                   Catch::Contains("No act is due while the hand is busy with another.\nFrom 0:12 on that is not certain: "
                                   "\"charge\" waits for the sheet, and then takes the hand for 0:08.\n"));
}

TEST_CASE("one step is not several, and a want before its wash is told as not judged", "[cli]") {
    const ProgramRun tidemark;
    const std::string sheet = "tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"cold-pressed-300\"\n"
                              "[mix.grey]\nPBk9 = 1\n[area.left]\nrectangle_mm = [0, 0, 20, 30]\n";
    const std::string wash =
        "[[step]]\nname = \"late\"\ndo = \"wash\"\nat = \"5:00\"\narea = \"left\"\nmix = \"grey\"\n"
        "film_um = 80\n[[want]]\nbetween = [\"late\", \"paper\"]\nedge = \"hard\"\n";
    tidemark.put("plan.toml", sheet + wash);
    CHECK_THAT(tidemark("check plan.toml").out, Catch::Contains(", 1 step\n"));
    const Said said = tidemark("rehearse plan.toml --out sheet --cell 2 --until 1:00");
    CHECK(said.code == 0);
    const std::string why = "not judged: \"late\" was not painted in this run\n";
    CHECK_THAT(said.out,
               Catch::Contains("Edges: 0 of 1 as wanted, 1 not judged\n  ? late | paper: wanted hard, " + why));
    CHECK_THAT(tidemark.bytes("sheet/edges.csv"), Catch::Contains("late,paper,\"not judged: "));
}

TEST_CASE("a coloured picture becomes a plan, and the plan a sheet with all its files", "[cli]") {
    drafts_and_rehearses(grid::png_bytes(landscape(160, 120, true)));
}

TEST_CASE("a grey picture of 200 pixels becomes a plan, and the plan a sheet", "[cli]") {
    drafts_and_rehearses(grey_png(landscape(200, 140, false)));
}

TEST_CASE("one thread and two write the same bytes, frames too", "[law][cli]") {
    const ProgramRun tidemark;
    const std::string rehearse = "rehearse " + two_pears + " --cell 2 --frames 10:00 --quiet --out ";
    REQUIRE(tidemark(rehearse + "one --threads 1").code == 0);
    REQUIRE(tidemark(rehearse + "two --threads 2").code == 0);
    const auto one = files_of(tidemark, "one"), two = files_of(tidemark, "two");
    CHECK(one.count("sheet.png") == 1);
    CHECK(one.size() > 8); // frames among them
    for (const auto& [name, bytes] : one) {
        INFO(name);
        REQUIRE(two.count(name) == 1);
        CHECK((two.at(name) == bytes)); // no megabytes in the message
    }
    CHECK(one.size() == two.size());
}

TEST_CASE("a draft says that it passed over a colour profile, and which picture's", "[cli]") {
    const ProgramRun tidemark;
    Bytes png = grid::png_bytes(landscape(160, 120, true)), chunk;
    put_chunk(chunk, "iCCP", Bytes{'n', 'o', 'n', 'e', 0, 0, 1, 2, 3});
    png.insert(png.begin() + 33, chunk.begin(), chunk.end()); // behind the header
    tidemark.put("picture.png", png);
    const Said said = tidemark("draft picture.png --out plan");
    CHECK(said.code == 0);
    CHECK(said.err == "picture.png: its colour profile could not be read and was ignored: taken as sRGB\n");
}
