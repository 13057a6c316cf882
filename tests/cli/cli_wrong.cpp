// What the program says to wrong input: one line each, exit code 2 (3 for the disk), nothing written.
#include <catch2/catch.hpp>

#include <algorithm>

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
