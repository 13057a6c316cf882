// What the program says to wrong input: one line each, exit code 2 (3 for the disk), nothing written.
#include <catch2/catch.hpp>

#include <algorithm>

#include "grid/files.h"
#include "grid/picture.h"
#include "support/program_run.h"

using namespace tidemark::grid;
using namespace tidemark::tests;

namespace {

const std::string small_plan = "tidemark = 1\n[sheet]\nsize_mm = [40, 30]\npaper = \"cold-pressed-300\"\n"
                               "[[step]]\ndo = \"wet\"\nwater_g_m2 = 60\n";

void refuses(const ProgramRun& tidemark, const std::string& arguments, const std::string& line, int code = 2) {
    INFO(arguments);
    const Said said = tidemark(arguments);
    CHECK(said.code == code);
    CHECK(said.out.empty());
    CHECK(said.err == line + "\n");
}

} // namespace

TEST_CASE("a plan or picture that is not there is named", "[wrong][cli]") {
    const ProgramRun tidemark;
    refuses(tidemark, "check none.toml", "none.toml: no such file");
    refuses(tidemark, "rehearse none.toml --out sheet", "none.toml: no such file");
    refuses(tidemark, "draft none.png --out plan", "none.png: no such file");
    refuses(tidemark, "check .", ".: is a folder; allowed: a file");
    tidemark.put("note.png", std::string("a letter about a picture"));
    refuses(tidemark, "draft note.png --out plan",
            "note.png: is neither PNG nor JPEG; allowed: a PNG or JPEG picture");
    CHECK_FALSE(std::filesystem::exists(tidemark.path("sheet")));
}

TEST_CASE("a draft leaves a plan that is there alone, unless told to replace it", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("picture.png", png_bytes(Picture{
                                    60, 40, std::vector<std::uint8_t>(3 * 60 * 40, 120)}));
    REQUIRE(tidemark("draft picture.png --out plan").code == 0);
    const std::string drafted = tidemark.bytes("plan/plan.toml"), mine = drafted + "# mine\n";
    REQUIRE(!drafted.empty());
    tidemark.put("plan/plan.toml", mine);
    refuses(tidemark, "draft picture.png --out plan",
            "plan/plan.toml: a plan is here already; allowed: another folder, or --replace to write over it");
    CHECK(tidemark.bytes("plan/plan.toml") == mine);
    CHECK(tidemark("draft picture.png --out plan --replace").code == 0);
    CHECK(tidemark.bytes("plan/plan.toml") == drafted);
}

TEST_CASE("a folder that can't be made is refused before painting, as disk trouble", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", small_plan);
    tidemark.put("note", std::string("kept"));
    refuses(tidemark, "rehearse plan.toml --out note/sheet", "note/sheet: can't make the folder: Not a directory", 3);
    CHECK(tidemark.bytes("note") == "kept");
}

TEST_CASE("an option out of its range is told the range", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", small_plan);
    const std::string rehearse = "rehearse plan.toml --out sheet ";
    refuses(tidemark, rehearse + "--cell nan", "--cell: nan mm; allowed: 0.1 to 4");
    refuses(tidemark, rehearse + "--cell -1", "--cell: -1 mm; allowed: 0.1 to 4");
    refuses(tidemark, rehearse + "--cell 1e-9", "--cell: 1e-09 mm; allowed: 0.1 to 4");
    const std::string allowed =
        "; allowed: minutes:seconds, such as 7:40 or 90:00, above 0:00 and up to 48 hours, 2880:00";
    for (const std::string word : {"soon", "0:00", "7:4x", "99999:00", "2880:01", "-1:00", ":30"})
        refuses(tidemark, rehearse + "--until " + word, "--until: \"" + word + "\" is no time" + allowed);
    const std::pair<std::string, std::string> meant[] = {
        {"5", "5:00"}, {"0:75", "1:15"}, {"7:5", "7:05"}, {"7.40", "7:40"}, {"1:30:00", "90:00"}};
    for (const auto& [word, time] : meant)
        refuses(tidemark, rehearse + "--until " + word,
                "--until: \"" + word + "\" is no time; did you mean " + time + "?");
    refuses(tidemark, rehearse + "--frames 0:01", "--frames: 0:01; allowed: 0:05 and more");
    refuses(tidemark, rehearse + "--advise", "--advise: the plan wants no edges; allowed: a plan with at least one [[want]]");
    refuses(tidemark, "rehearse " + two_pears + " --out sheet --until 5:00 --advise", "--advise: together with --until; allowed: a rehearsal to its end");
    CHECK_FALSE(std::filesystem::exists(tidemark.path("sheet")));
}

TEST_CASE("an option or command that does not exist, or is missing, ends with code 2", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", small_plan);
    const auto says = [&](const std::string& arguments, const std::string& part) {
        INFO(arguments);
        const Said said = tidemark(arguments);
        CHECK(said.code == 2);
        CHECK(said.out.empty());
        CHECK_THAT(said.err, Catch::Contains(part));
    };
    says("rehearse plan.toml --out sheet --wetter", "--wetter");
    says("rehearse plan.toml", "--out");
    says("rehearse --out sheet", "PLAN");
    says("rehearse plan.toml --out sheet --cell fine", "fine");
    says("paint plan.toml", "command");
    says("", "command");
    CHECK_FALSE(std::filesystem::exists(tidemark.path("sheet")));
}

TEST_CASE("a wrong plan has a line for each mistake and leaves older results alone", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", small_plan);
    REQUIRE(tidemark("rehearse plan.toml --out sheet --cell 2 --until 0:30 --quiet").code == 0);
    const std::string picture = tidemark.bytes("sheet/sheet.png"), ledger = tidemark.bytes("sheet/ledger.csv");
    REQUIRE(!picture.empty());
    std::string wrong = small_plan;
    wrong.replace(wrong.find("60"), 2, "6000");
    wrong.replace(wrong.find("cold-pressed-300"), 16, "cold-pressed-301");
    tidemark.put("plan.toml", wrong);
    const Said said = tidemark("rehearse plan.toml --out sheet --cell 2");
    CHECK(said.code == 2);
    CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 2);
    CHECK_THAT(said.err, Catch::Contains("plan.toml:4: ") && Catch::Contains("did you mean \"cold-pressed-300\""));
    CHECK_THAT(said.err, Catch::Contains("plan.toml:7: ") && Catch::Contains("allowed: 10 to 600"));
    CHECK(tidemark.bytes("sheet/sheet.png") == picture);
    CHECK(tidemark.bytes("sheet/ledger.csv") == ledger);
}

namespace {

/// A plan of the tour in which one act says something wrong, and what is said of it.
struct Slip {
    const char* plan;
    const char* right;
    const char* wrong;
    const char* said;
};
const Slip slips[] = {
    {"01-wet", "water_g_m2 = 120", "water_g_m2 = 1200", "step \"wet\": water_g_m2 is 1200; allowed: 10 to 600 g/m²"},
    {"02-wash-rows", "travel = \"rows", "travel = \"row", "step \"wash\": travel is \"row\"; allowed: rows or downhill"},
    {"03-wash-downhill", "bead = \"pick-up\"", "bead = \"pick\"", "step \"wash\": bead is \"pick\"; allowed: leave or pick-up"},
    {"04-wash-from", "from = [17, 10]", "from = [17, 100]",
     "step \"wash\": from is [17, 100]; allowed: [x, y] on the sheet in mm, up to [80, 60]"},
    {"07-charge", "drop_mm = 5", "drop_mm = 50", "step \"charge\": drop_mm is 50; allowed: 0.5 to 30 mm"},
    {"08-lift", "tool = \"tissue\"", "tool = \"tissu\"",
     "step \"lift 2\": tool is \"tissu\"; allowed: thirsty-brush, tissue, sponge or scrub"},
    {"09-spatter", "drop_mm = [0.5, 2]", "drop_mm = [2, 0.5]",
     "step \"spatter\": drop_mm is [2, 0.5]; allowed: the smallest first"},
    {"10-spray", "droplet_mm", "drop_mm",
     "step \"spray\": unknown key \"drop_mm\"; allowed: name, do, mask, area, mix, water_g_m2, droplet_mm, seconds, at, "
     "after, when, wait"},
    {"11-drybrush", "share = 0.4", "share = 4", "step \"drybrush\": share is 4; allowed: 0.05 to 1"},
    {"12-soften", "along = \"light\"", "along = \"lights\"",
     "step \"soften\": unknown area \"lights\"; did you mean \"light\"?"},
    {"13-tilt", "angle_deg = 12", "angle_deg = 120", "step \"tilt\": angle_deg is 120; allowed: 0 to 60 degrees"},
    {"14-dry", "until = \"dry\"", "until = \"dried\"",
     "step \"dry\": until is \"dried\"; allowed: wet, moist, damp or dry"},
    {"15-warm-air", "air_C = 50", "air_C = 500", "step \"dry\": air_C is 500; allowed: 20 to 80 °C"},
    {"16-reserve", "pace_cm2_s = 3", "pace_cm2_s = 0", "step \"reserve\": pace_cm2_s is 0; allowed: 0.5 to 100 cm²/s"},
    {"17-uncover", "area = \"first\"\npace", "area = \"light\"\npace",
     "step \"uncover\": unknown area \"light\"; allowed: first, second"},
    {"18-body", "paint_g_m2 = 80", "paint_g_m2 = 800", "step \"body\": paint_g_m2 is 800; allowed: 5 to 400 g/m²"},
    {"19-when", "is = \"damp\"", "is = \"dampish\"",
     "step \"hills\": when: is is \"dampish\"; allowed: wet, moist, damp or dry"},
};

} // namespace

TEST_CASE("one slip in any act is one line with its place, and nothing is painted", "[wrong][cli]") {
    const ProgramRun tidemark;
    for (const Slip& slip : slips) {
        std::string plan = read_text(TIDEMARK_TESTS_DIR "/behaviour/tour/" + std::string(slip.plan) + ".toml");
        INFO(slip.plan);
        const std::size_t at = plan.find(slip.right);
        REQUIRE(at != std::string::npos);
        const auto line = 1 + std::count(plan.begin(), plan.begin() + static_cast<std::ptrdiff_t>(at), '\n');
        plan.replace(at, std::string(slip.right).size(), slip.wrong);
        tidemark.put("plan.toml", plan);
        const std::string said = "plan.toml:" + std::to_string(line) + ": " + slip.said;
        refuses(tidemark, "check plan.toml", said);
        refuses(tidemark, "rehearse plan.toml --out sheet", said);
    }
    CHECK_FALSE(std::filesystem::exists(tidemark.path("sheet")));
}
