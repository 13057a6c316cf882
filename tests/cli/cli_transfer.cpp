// `tidemark transfer` from outside: the three kinds of file, what is said, and one line for each mistake.
#include <catch2/catch.hpp>

#include "grid/picture.h"
#include "support/program_run.h"

using namespace tidemark;
using namespace tidemark::tests;

namespace {

/// 300 × 200: a dark disc on a light ground.
std::vector<std::uint8_t> disc() {
    grid::Picture p{300, 200, {}};
    for (int y = 0; y < 200; ++y)
        for (int x = 0; x < 300; ++x)
            p.rgb.insert(p.rgb.end(), 3, (x - 150) * (x - 150) + (y - 100) * (y - 100) < 3600 ? 40 : 220);
    return grid::png_bytes(p);
}

} // namespace

TEST_CASE("transfer writes a PNG, a PDF or an SVG, the same bytes each time", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", disc());
    for (const auto& [name, begin] : {std::pair("t.png", "\x89PNG"), std::pair("t.pdf", "%PDF-"), std::pair("t.SVG", "<?xml")}) {
        const std::string arguments = "transfer photo.png --sheet-mm 120x80 --eye-line 50% --head 60,40 --out ";
        const Said said = tidemark(arguments + "made/" + name);
        INFO(name << ": " << said.err);
        CHECK(said.code == 0);
        CHECK(said.err.empty());
        CHECK_THAT(said.out, Catch::StartsWith("2 masses in outline on 120 x 80 mm, squares of 30 mm. Look at made/"));
        const std::string bytes = tidemark.bytes(std::string("made/") + name);
        CHECK_THAT(bytes, Catch::StartsWith(begin));
        REQUIRE(tidemark(arguments + name).code == 0);
        CHECK(tidemark.bytes(name) == bytes);
    }
}

TEST_CASE("transfer says what falls away and how heads stand to the eye line", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", disc());
    const Said whole = tidemark("transfer photo.png --sheet-mm 120x80 --out t.svg");
    CHECK_THAT(whole.out, !Catch::Contains("falls away"));
    const Said square = tidemark("transfer photo.png --sheet-mm 80x80 --out t.svg --eye-line 30 --head 20,37.5 --head "
                                 "40,30.4 --head 60,20");
    CHECK_THAT(square.out, Catch::Contains("Of the picture falls away: 20.0 mm on the left, 20.0 mm on the right; 33.3 "
                                           "percent of it\n"
                                           "head 1 stands 7.5 mm below the eye line\n"
                                           "head 2 is on the eye line, within 1 mm\n"
                                           "head 3 stands 10.0 mm above the eye line\n"
                                           "This goes for grown-ups who stand on level ground"));
    const Said part = tidemark("transfer photo.png --sheet-mm 80x80 --crop 0,0,100x100 --out t.svg");
    CHECK_THAT(part.out,
               Catch::Contains("falls away: 160.0 mm on the right, 80.0 mm at the foot; 83.3 percent of it"));
    const Said sitting = tidemark("transfer photo.png --sheet-mm 80x80 --out t.svg --eye-line 50% --head 1,2 --standing "
                                  "1.1");
    CHECK_THAT(sitting.out, Catch::Contains("Seen from 1.1 m above the ground the eye line cuts grown-ups at that "
                                            "height, not at their heads: heads are not judged\n"));
    CHECK_THAT(sitting.out, !Catch::Contains("head 1"));
}

TEST_CASE("transfer tells a mistake in one line and writes nothing", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("photo.png", disc());
    tidemark.put("note.png", std::string("no picture"));
    std::filesystem::create_directory(tidemark.path("folder"));
    const std::string see = "; see tidemark transfer --help";
    const std::string sheet = "; allowed: width x height, 30 to 1200 mm each, such as 380x280";
    const std::string crop = "; allowed: left, top, width x height in pixels of the picture, which is 300 x 200, such "
                             "as 0,0,300x200";
    const std::string eye = "; allowed: from the top of the sheet: 0 to 80 mm, or 0% to 100% of its height";
    const std::string head = "; allowed: x,y in mm from the top left corner of the sheet, up to 120,80";
    const std::string ending = "; allowed: a name that ends in .png, .pdf or .svg";
    const std::string good = "photo.png --sheet-mm 120x80 --out t.svg";
    const std::pair<std::string, std::string> mistakes[] = {
        {"", "PICTURE is required" + see},
        {"photo.png --out t.svg", "--sheet-mm is required" + see},
        {"photo.png --sheet-mm 120x80", "--out is required" + see},
        {"none.png --sheet-mm 120x80 --out t.svg", "none.png: no such file"},
        {"note.png --sheet-mm 120x80 --out t.svg", "note.png: is neither PNG nor JPEG; allowed: a PNG or JPEG picture"},
        {"photo.png --sheet-mm 120 --out t.svg", "--sheet-mm: \"120\"" + sheet},
        {"photo.png --sheet-mm 120x80mm --out t.svg", "--sheet-mm: \"120x80mm\"" + sheet},
        {"photo.png --sheet-mm 120x20 --out t.svg", "--sheet-mm: \"120x20\"" + sheet},
        {"photo.png --sheet-mm 120xnan --out t.svg", "--sheet-mm: \"120xnan\"" + sheet},
        {"photo.png --sheet-mm 1e9x80 --out t.svg", "--sheet-mm: \"1e9x80\"" + sheet},
        {"photo.png --sheet-mm 120x80 --out t.jpg", "--out: \"t.jpg\"" + ending},
        {"photo.png --sheet-mm 120x80 --out t", "--out: \"t\"" + ending},
        {"photo.png --sheet-mm 120x80 --out folder", "--out: \"folder\" is a folder; allowed: a file's name"},
        {"photo.png --sheet-mm 120x80 --out ./photo.png", "--out: \"./photo.png\" is the picture; allowed: another file"},
        {"photo.png --sheet-mm 1200x900 --out t.png",
         "--out: a PNG of this sheet is 14173 x 10630 pixels; allowed: at most 100000000 pixels in all; a PDF or SVG of "
         "any sheet"},
        {good + " --crop 0,0,100", "--crop: \"0,0,100\"" + crop},
        {good + " --crop 0,0,301x200", "--crop: \"0,0,301x200\"" + crop},
        {good + " --crop -1,0,30x20", "--crop: \"-1,0,30x20\"" + crop},
        {good + " --crop 0,0,100x100",
         "--crop: \"0,0,100x100\"; allowed: the sheet's 1.5 : 1, within 1 percent, such as 0,0,100x67"},
        {good + " --grid 4", "--grid: \"4\"; allowed: the side of a square, 5 to 120 mm"},
        {good + " --grid wide", "--grid: \"wide\"; allowed: the side of a square, 5 to 120 mm"},
        {good + " --groups 8", "--groups: \"8\"; allowed: 2 to 7"},
        {good + " --groups few", "--groups: \"few\" is no whole number; allowed: 2 to 7"},
        {good + " --eye-line 81", "--eye-line: \"81\"" + eye},
        {good + " --eye-line 101%", "--eye-line: \"101%\"" + eye},
        {good + " --eye-line high", "--eye-line: \"high\"" + eye},
        {good + " --head 1,2", "--head: heads are held to the eye line, and there is none; allowed: --eye-line with it"},
        {good + " --eye-line 40 --head 1", "--head: \"1\"" + head},
        {good + " --eye-line 40 --head 121,2", "--head: \"121,2\"" + head},
        {good + " --standing 9", "--standing: \"9\"; allowed: 0.3 to 3 m"},
        {good + " --standing tall", "--standing: \"tall\" is no number; allowed: 0.3 to 3 m"}};
    for (const auto& [arguments, line] : mistakes) {
        const Said said = tidemark("transfer " + arguments);
        INFO("transfer " << arguments);
        CHECK(said.err == line + "\n");
        CHECK(said.out.empty());
        CHECK(said.code == 2);
    }
    for (const auto& entry : std::filesystem::directory_iterator(tidemark.path(""))) {
        const std::string name = entry.path().filename().string();
        CHECK((name == "photo.png" || name == "note.png" || name == "folder" || name == ".out" || name == ".err"));
    }
    CHECK(tidemark.bytes("photo.png").size() == disc().size());
}
