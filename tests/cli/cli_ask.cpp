// What if, as a painter asks it.
#include "support/program_run.h"
#include "support/sky_and_hills.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "grid/csv.h"
#include "grid/picture.h"

using namespace tidemark;
using namespace tidemark::tests;

namespace {

const std::string when_damp = R"(when = { area = "above", is = "damp", longest = "30:00" })";
const std::string dots = R"([[step]]
name = "dots"
do = "spatter"
mix = "blue"
area = "above"
drops = 5)";
const std::string plan = plan_text({.hills_start = when_damp, .last = dots, .edge = "soft"});

std::string edited(const std::string& was, const std::string& now) {
    std::string text = plan;
    return text.replace(text.find(was), was.size(), now);
}

grid::CsvTable table(const ProgramRun& tidemark, const std::string& name) { return grid::CsvTable::parse(tidemark.bytes(name), name); }

} // namespace

TEST_CASE("ask paints each variant as rehearse paints a plan with that value, and shows what became of it", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan);
    const Said said = tidemark("ask plan.toml --vary hills.wait=0:00..6:00/3:00 --out asked --cell 2 --whole");
    INFO(said.err);
    REQUIRE(said.code == 0);
    CHECK(said.err.empty());
    CHECK_THAT(said.out, Catch::Contains("\n  wait 3:00  hills | sky: ") && Catch::Contains("3 sheets in ") &&
                             Catch::EndsWith("Look at asked/contact-sheet.png\n"));
    const auto asked = table(tidemark, "asked/ask.csv");
    REQUIRE(asked.rows() == 3);
    for (std::size_t k = 0; k < 3; ++k) {
        const std::string wait = asked.text(k, "hills.wait");
        tidemark.put("one.toml", edited(when_damp, "after = \"sky\"\nwait = \"" + wait + "\""));
        REQUIRE(tidemark("rehearse one.toml --out sheet --cell 2").code == 0);
        const auto edges = table(tidemark, "sheet/edges.csv");
        bool there = false;
        for (std::size_t e = 0; e < edges.rows(); ++e)
            if (edges.text(e, "step") == "hills" && edges.text(e, "neighbour") == "sky") {
                CHECK(edges.text(e, "edge") == asked.text(k, "hills | sky (wanted soft)"));
                CHECK(edges.text(e, "width_mm") == asked.text(k, "hills | sky width_mm"));
                there = true;
            }
        CHECK(there);
        const auto windows = table(tidemark, "sheet/windows.csv");
        for (std::size_t w = 0; w < windows.rows(); ++w)
            if (windows.text(w, "step") == "hills") CHECK(windows.text(w, "damp_min") == asked.text(k, "hills damp_min"));
    }
    CHECK(asked.number(0, "hills | sky width_mm") > asked.number(2, "hills | sky width_mm")); // into wet, into damp
    CHECK(tidemark.bytes("plan.toml") == plan);
    const grid::Picture plot = grid::read_picture(tidemark.path("asked/ask.png"));
    CHECK(plot.width == 2244); // 190 mm at 300 pixels an inch
    CHECK(plot.height == 1476);
    CHECK_THAT(tidemark.bytes("asked/ask.svg"), Catch::Contains("width=\"190mm\""));
}

TEST_CASE("two things varied are every value with every other, for any number of threads, until what varies is dry", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan);
    for (const char* threads : {"1", "2"})
        REQUIRE(tidemark(std::string("ask plan.toml --vary hills.film_um=40,80 --vary mix.grey.PBk9=1..3/1 --cell 2 --quiet --threads ") + threads +
                         " --out asked" + threads).code == 0);
    for (const char* file : {"/ask.csv", "/contact-sheet.png", "/ask.png", "/ask.svg"}) {
        CHECK_FALSE(tidemark.bytes(std::string("asked1") + file).empty());
        CHECK(tidemark.bytes(std::string("asked1") + file) == tidemark.bytes(std::string("asked2") + file));
    }
    const auto asked = table(tidemark, "asked1/ask.csv");
    REQUIRE(asked.rows() == 6);
    CHECK(asked.text(4, "hills.film_um") == "80");
    CHECK(asked.text(4, "mix.grey.PBk9") == "2");
    CHECK_FALSE(asked.has("dots wet_from_min")); // after the drying
}

TEST_CASE("on other days a verdict is a share, of the same days for any number of threads", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan);
    const Said said = tidemark("ask plan.toml --out asked1 --cell 4 --threads 1 --uncertain 3");
    REQUIRE(said.code == 0);
    CHECK_THAT(said.out, (Catch::Contains("as planned, on 3 days:\n  hills | sky: ") && Catch::Contains(" in 3 of 3 (wanted soft)")) ||
                             Catch::Contains(" in 2 of 3"));
    REQUIRE(tidemark("ask plan.toml --out asked2 --cell 4 --threads 2 --quiet --uncertain 3").code == 0);
    for (const char* file : {"/ask.csv", "/uncertain.csv", "/contact-sheet.png"})
        CHECK(tidemark.bytes(std::string("asked1") + file) == tidemark.bytes(std::string("asked2") + file));
    const auto asked = table(tidemark, "asked1/ask.csv");
    CHECK(asked.rows() == 4); // as planned, and three days
    CHECK(asked.number(1, "humidity_more_pct") != asked.number(2, "humidity_more_pct"));
    CHECK(table(tidemark, "asked1/uncertain.csv").number(0, "days") == 3);
    CHECK_FALSE(std::filesystem::exists(tidemark.path("asked1/ask.png"))); // nothing to plot against
}

TEST_CASE("a question that can't be asked is one line, and nothing is written", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan);
    const std::string how = "; allowed: STEP.KEY=FROM..TO/STEP or STEP.KEY=A,B,C, such as hills.wait=0:00..12:00/2:00 or hills.film_um=60,80";
    const auto refuses = [&](const std::string& arguments, const std::string& line) {
        const Said said = tidemark("ask plan.toml --out asked " + arguments);
        INFO(arguments);
        CHECK(said.err == line + "\n");
        CHECK(said.out.empty());
        CHECK(said.code == 2);
    };
    refuses("", "ask: nothing is asked; allowed: at least one of --vary, --room, --paper, --uncertain");
    for (const char* text : {"hills.wait", "hills=3", ".wait=1:00", "hills.=3", "hills.wait=", "hills.wait=0:00..4:00", "hills.wait=0:00../1:00",
                             "hills.wait=0:00..x/1:00", "hills.wait=0:00..4:00/1", "hills.film_um=60,,80", "hills.film_um=60.."})
        refuses(std::string("--vary ") + text, "--vary: \"" + std::string(text) + "\"" + how);
    refuses("--vary hills.wait=4:00..0:00/1:00", "--vary: \"hills.wait=4:00..0:00/1:00\" ends at 0:00, before 4:00; allowed: the smaller value first");
    refuses("--vary hills.film_um=40..80/0", "--vary: \"hills.film_um=40..80/0\" goes on by 0; allowed: more than 0");
    refuses("--vary hills.film_um=10..600/1", "--vary: \"hills.film_um=10..600/1\" makes 591 variants; allowed: at most 64 in all");
    refuses("--vary hills.film_um=10..90/10 --vary hills.wait=0:00..9:00/1:00", "--vary: 9 x 10 makes more than 64 variants; allowed: at most 64");
    refuses("--vary hills.film_um=60,60", "--vary: \"hills.film_um=60,60\": 60 stands there twice; allowed: each value once");
    refuses("--vary hills.film_um=60 --vary hills.film_um=70", "--vary: hills.film_um is varied twice; allowed: once, with all its values");
    refuses("--vary hill.wait=0:00", "--vary: unknown step \"hill\"; did you mean \"hills\"?");
    refuses("--vary mountains.wait=0:00", "--vary: unknown step \"mountains\"; allowed: sky, hills, dry it, dots");
    refuses("--vary hills.film_um=60,900", "--vary hills.film_um=900: step \"hills\": film_um is 900; allowed: 10 to 600 µm");
    refuses("--vary hills.wait=5", "--vary hills.wait=5: step \"hills\": wait \"5\" is no time; did you mean \"5:00\"?");
    refuses("--paper cold-pressed-200", "--paper cold-pressed-200: [sheet]: unknown paper \"cold-pressed-200\"; did you mean \"cold-pressed-300\"?");
    refuses("--vary sheet.room=x", "--vary: \"sheet.room=x\"; allowed: --room and --paper for what is of the sheet");
    refuses("--uncertain 0", "--uncertain: 0; allowed: 1 to 64 days");
    refuses("--uncertain many", "--uncertain: \"many\" is no whole number; allowed: 1 to 64 days");
    refuses("--vary hills.film_um=10..90/10 --uncertain 8", "--uncertain: 9 variants on 8 days; allowed: at most 64 in all");
    refuses("--vary hills.film_um=60 --cell 9", "--cell: 9 mm; allowed: 0.1 to 4");
    CHECK_FALSE(std::filesystem::exists(tidemark.path("asked")));
}

TEST_CASE("a question that the painter stops leaves nothing behind", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan);
    // Fine cells: minutes of work. The signal comes long after the plan was read.
    const std::string line = "cd '" + tidemark.path("").string() + "' && { TIDEMARK_PRESETS='" TIDEMARK_PRESETS_DIR "' '" TIDEMARK_PROGRAM
                             "' ask plan.toml --vary hills.film_um=40..80/5 --cell 0.1 --out asked 2>stopped & sleep 1; kill $!; wait $!; }";
    const int status = std::system(line.c_str());
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 130);
    CHECK(tidemark.bytes("stopped") == "stopped; nothing was written\n");
    CHECK((!std::filesystem::exists(tidemark.path("asked")) || std::filesystem::is_empty(tidemark.path("asked"))));
}
