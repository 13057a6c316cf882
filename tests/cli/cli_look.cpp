// A rehearsal run with --keep, and looked at afterwards.
#include <catch2/catch.hpp>

#include <map>
#include <set>

#include "grid/picture.h"
#include "support/program_run.h"

namespace fs = std::filesystem;
using namespace tidemark;
using namespace tidemark::tests;

namespace {

const std::string plan = "tidemark = 1\n[sheet]\nsize_mm = [60, 50]\npaper = \"cold-pressed-300\"\n"
                         "[mix.grey]\nPBk9 = 1\n[mix.blue]\nPB29 = 3\n[area.left]\nmask = \"left.png\"\n"
                         "[[step]]\ndo = \"wet\"\nwater_g_m2 = 120\n[[step]]\ndo = \"wash\"\nmix = \"grey\"\nfilm_um = 90\n"
                         "[[step]]\ndo = \"charge\"\nmix = \"blue\"\narea = \"left\"\ndrops = 60\neach_s = 3\n"
                         "[[step]]\ndo = \"dry\"\nuntil = \"damp\"\nwarm_air = true\n";

void put_mask(const ProgramRun& tidemark, int dark) {
    grid::GreyPicture mask{60, 50, std::vector<float>(3000, 1.0f)};
    for (int k = 0; k < 3000; ++k)
        if (k % 60 >= dark) mask.value[k] = 0;
    tidemark.put("left.png", grid::png_bytes(mask));
}

/// A plan with a charge from about 0:10 to 3:10, kept every half minute.
void rehearse_kept(const ProgramRun& tidemark, const std::string& more = "") {
    put_mask(tidemark, 30);
    tidemark.put("plan.toml", plan);
    const Said said = tidemark("rehearse plan.toml --out kept-run --cell 2 --keep 0:30 --quiet " + more);
    INFO(said.err);
    REQUIRE(said.code == 0);
}

std::set<std::string> moments(const ProgramRun& tidemark) {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(tidemark.path("kept-run/kept"))) names.insert(entry.path().filename());
    return names;
}

void refuses(const ProgramRun& tidemark, const std::string& arguments, const std::string& line) {
    INFO(arguments);
    const Said said = tidemark(arguments);
    CHECK(said.code == 2);
    CHECK(said.out.empty());
    CHECK(said.err == line + "\n");
    CHECK_FALSE(fs::exists(tidemark.path("look.png")));
}

} // namespace

TEST_CASE("a look at a moment is the picture of a run that stops there, for one thread and two", "[law][cli]") {
    const ProgramRun tidemark;
    rehearse_kept(tidemark, "--until 9:00");
    for (const std::string at : {"0:07", "2:00", "2:47", "7:31"}) {
        INFO(at);
        REQUIRE(tidemark("rehearse plan.toml --out stopped --cell 2 --quiet --until " + at).code == 0);
        const std::string wet = tidemark.bytes("stopped/sheet-wet.png"), dried = tidemark.bytes("stopped/sheet.png");
        for (const std::string threads : {" --threads 1", " --threads 2"}) {
            const Said said = tidemark("look kept-run --out wet.png --at " + at + threads);
            CHECK(said.out == "Look at wet.png\n");
            CHECK((tidemark.bytes("wet.png") == wet));
            CHECK(tidemark("look kept-run --dried --out dried.png --at " + at + threads).code == 0);
            CHECK((tidemark.bytes("dried.png") == dried));
        }
        CHECK((wet != dried));
    }
    const Said late = tidemark("look kept-run --out wet.png --at 600:00");
    CHECK_THAT(late.out, Catch::StartsWith("The sheet is dry since ") && Catch::EndsWith(". Look at wet.png\n"));
}

TEST_CASE("what is kept changes nothing of what comes out, and is the same for one thread and two", "[law][cli]") {
    const ProgramRun tidemark;
    rehearse_kept(tidemark, "--until 11:00 --threads 1");
    std::map<std::string, std::string> one;
    for (const std::string& name : moments(tidemark)) one[name] = tidemark.bytes("kept-run/kept/" + name);
    REQUIRE(one.size() == 22);
    CHECK(one.count("0000m00.000s.moment") == 1);
    CHECK(one.count("0001m30.000s.moment") == 1);
    REQUIRE(tidemark("rehearse plan.toml --out plain --cell 2 --quiet --until 11:00").code == 0);
    for (const auto& entry : fs::directory_iterator(tidemark.path("plain"))) {
        const std::string name = entry.path().filename();
        INFO(name);
        CHECK((tidemark.bytes("plain/" + name) == tidemark.bytes("kept-run/" + name)));
    }
    rehearse_kept(tidemark, "--until 11:00 --threads 2");
    REQUIRE(moments(tidemark).size() == one.size());
    for (const auto& [name, bytes] : one) CHECK((tidemark.bytes("kept-run/kept/" + name) == bytes));
}

TEST_CASE("a run with --keep takes the moments of the one before away, and nothing else", "[cli]") {
    const ProgramRun tidemark;
    rehearse_kept(tidemark, "--until 3:00");
    CHECK(moments(tidemark).size() == 6); // 0:00 to 2:30
    tidemark.put("kept-run/kept/mine.txt", std::string("mine"));
    rehearse_kept(tidemark, "--until 1:00");
    CHECK(moments(tidemark) == std::set<std::string>{"0000m00.000s.moment", "0000m30.000s.moment", "mine.txt"});
}

TEST_CASE("a moment of another plan, mask or table is not gone on with", "[wrong][cli]") {
    const ProgramRun tidemark;
    rehearse_kept(tidemark, "--until 1:00");
    const std::string look = "look kept-run --at 0:40 --out look.png";
    const std::string file = tidemark.path("plan.toml").string();
    const auto other = [](const std::string& name) {
        return name + ": the plan, a mask or a row of the tables is not as it was when "
                      "kept-run/kept/0000m30.000s.moment was kept; allowed: the same plan, or a new tidemark rehearse --keep";
    };
    std::string changed = plan;
    changed.replace(changed.find("film_um = 90"), 12, "film_um = 91");
    tidemark.put("plan.toml", changed);
    refuses(tidemark, look, other(file));
    tidemark.put("plan.toml", plan);
    put_mask(tidemark, 31);
    refuses(tidemark, look, other(file));
    put_mask(tidemark, 30);
    fs::create_directory(tidemark.path("moved"));
    for (const char* name : {"plan.toml", "left.png"}) fs::rename(tidemark.path(name), tidemark.path("moved") / name);
    refuses(tidemark, look, file + ": no such file");
    CHECK(tidemark(look + " --plan moved/plan.toml").code == 0);
    fs::remove(tidemark.path("look.png"));
    tidemark.put("moved/plan.toml", "# a comment\n" + plan + "[reference]\npicture = \"left.png\"\n");
    CHECK(tidemark(look + " --plan moved/plan.toml").code == 0); // paints the same
}

TEST_CASE("a kept moment that is damaged, cut, foreign or newer is refused in one line", "[wrong][cli]") {
    const ProgramRun tidemark;
    rehearse_kept(tidemark, "--until 1:00");
    const std::string file = "kept-run/kept/0000m30.000s.moment", whole = tidemark.bytes(file);
    const std::string look = "look kept-run --at 0:40 --out look.png";
    const std::string allowed = "; allowed: a moment kept by tidemark rehearse --keep";
    const std::size_t n = whole.size();
    REQUIRE(n > 1000);
    for (const std::size_t at : {std::size_t{16}, std::size_t{20}, std::size_t{30}, n / 3, n / 2, n - 13, n - 1}) {
        INFO("byte " << at << " of " << n);
        std::string bytes = whole;
        bytes[at] = static_cast<char>(bytes[at] ^ 0x10);
        tidemark.put(file, bytes);
        refuses(tidemark, look, file + ": is damaged or cut short" + allowed);
        tidemark.put(file, whole.substr(0, at));
        refuses(tidemark, look, file + ": is damaged or cut short" + allowed);
    }
    tidemark.put(file, std::string("a letter about a sheet of paper"));
    refuses(tidemark, look, file + ": is something else" + allowed);
    std::string newer = whole;
    ++newer[12];
    tidemark.put(file, newer);
    refuses(tidemark, look, file + ": was written by a newer tidemark (version 8 of such files); allowed: version 7");
    tidemark.put(file, tidemark.bytes("kept-run/kept/0000m00.000s.moment")); // whole, but misnamed: it is only earlier
    CHECK(tidemark(look).code == 0);
    fs::rename(tidemark.path("look.png"), tidemark.path("misnamed.png"));
    tidemark.put(file, whole);
    CHECK(tidemark(look).code == 0);
    CHECK((tidemark.bytes("look.png") == tidemark.bytes("misnamed.png")));
}

TEST_CASE("look says what is missing: kept moments, a moment early enough, a file to write", "[wrong][cli]") {
    const ProgramRun tidemark;
    refuses(tidemark, "look nowhere --at 1:00 --out look.png",
            "nowhere/kept: no moment is kept here; allowed: a folder made by tidemark rehearse --keep");
    rehearse_kept(tidemark, "--until 1:00");
    fs::remove(tidemark.path("kept-run/kept/0000m00.000s.moment"));
    refuses(tidemark, "look kept-run --at 0:10 --out look.png",
            "kept-run/kept: nothing is kept as early as 0:10; allowed: from 0:30 on");
    fs::rename(tidemark.path("kept-run/kept/0000m30.000s.moment"), tidemark.path("kept-run/kept/0000m05.000s.moment"));
    refuses(tidemark, "look kept-run --at 0:10 --out look.png",
            "kept-run/kept/0000m05.000s.moment: was kept at 0:30; allowed: a moment at or before 0:10");
    refuses(tidemark, "look kept-run --at 1:00 --out kept-run", "--out: \"kept-run\" is a folder; allowed: a file's name");
    refuses(tidemark, "look kept-run --at soon --out look.png",
            "--at: \"soon\" is no time; allowed: minutes:seconds, such as 7:40 or 90:00, above 0:00 and up to 48 hours, 2880:00");
    refuses(tidemark, "rehearse plan.toml --out other --keep 0:01", "--keep: 0:01; allowed: 0:05 and more");
    CHECK_FALSE(fs::exists(tidemark.path("other")));
}
