// `tidemark swatches` from outside: the chart, its table, and one line for each mistake.
#include <catch2/catch.hpp>

#include <algorithm>

#include "grid/picture.h"
#include "support/program_run.h"

using namespace tidemark;
using namespace tidemark::tests;

TEST_CASE("swatches draws a chart and writes its table", "[cli]") {
    const ProgramRun tidemark;
    const Said said = tidemark("swatches --out made/chart.png --csv table.csv");
    CHECK(said.err.empty());
    CHECK(said.code == 0);
    CHECK(said.out == "32 pigments on cold-pressed-300, in D65. Look at made/chart.png\n");
    const grid::Picture card = grid::read_picture(tidemark.path("made/chart.png"));
    CHECK(card.width == 2400);
    const std::string table = tidemark.bytes("table.csv");
    CHECK_THAT(table, Catch::StartsWith("id,load_g_m2,light,wet_L,wet_a,wet_b,dry_L,dry_a,dry_b\nPB29,0.1,D65,"));
    CHECK(std::count(table.begin(), table.end(), '\n') == 1 + 32 * 5);

    REQUIRE(tidemark("swatches --out warm.png --csv warm.csv --light D50 --paper rough-300").code == 0);
    CHECK(tidemark.bytes("warm.png") != tidemark.bytes("made/chart.png"));
    CHECK_THAT(tidemark.bytes("warm.csv"), Catch::Contains("\nPB29,0.1,D50,"));
    REQUIRE(tidemark("swatches --out again.png").code == 0);
    CHECK(tidemark.bytes("again.png") == tidemark.bytes("made/chart.png"));
}

TEST_CASE("swatches tells a mistake in one line and writes nothing", "[wrong][cli]") {
    const ProgramRun tidemark;
    std::filesystem::create_directory(tidemark.path("folder"));
    const std::string see = "; see tidemark swatches --help", is_folder = "\" is a folder; allowed: a file's name";
    const std::string papers = "hot-pressed-185, hot-pressed-300, cold-pressed-185, cold-pressed-300, cold-pressed-640, "
                               "rough-300, rough-640, soft-300";
    const std::pair<std::string, std::string> mistakes[] = {
        {"", "--out is required" + see},
        {"--out ''", "--out: is empty; allowed: a file's name"},
        {"--out chart.png more", "\"more\" is one word too many" + see},
        {"--out chart.png --ligth D50", "unknown option \"--ligth\"; did you mean \"--light\"?"},
        {"--out chart.png --light D75", "--light: unknown light \"D75\"; allowed: D65, D50"},
        {"--out chart.png --light ''", "--light: is empty; allowed: D65, D50"},
        {"--out chart.png --paper slate", "--paper: unknown paper \"slate\"; allowed: " + papers},
        {"--out chart.png --paper rough-301", "--paper: unknown paper \"rough-301\"; did you mean \"rough-300\"?"},
        {"--out chart.png --paper ''", "--paper: is empty; allowed: a paper's id"},
        {"--out folder", "--out: \"folder" + is_folder},
        {"--out chart/", "--out: \"chart/" + is_folder},
        {"--out chart.png --csv folder", "--csv: \"folder" + is_folder},
        {"--out chart.png --csv ''", "--csv: is empty; allowed: a file's name"},
        {"--out chart.png --csv ./chart.png", "--csv: \"./chart.png\" is the picture, too; allowed: another file"}};
    for (const auto& [arguments, line] : mistakes) {
        const Said said = tidemark("swatches " + arguments);
        INFO("swatches " << arguments);
        CHECK(said.err == line + "\n");
        CHECK(said.out.empty());
        CHECK(said.code == 2);
    }
    for (const auto& entry : std::filesystem::directory_iterator(tidemark.path(""))) {
        const std::string name = entry.path().filename().string();
        CHECK((name == "folder" || name == ".out" || name == ".err"));
    }
}

TEST_CASE("swatches that can't write its table leaves no picture either", "[wrong][cli]") {
    const ProgramRun tidemark;
    tidemark.put("note", std::string("kept"));
    const Said said = tidemark("swatches --out chart.png --csv note/table.csv");
    CHECK(said.code == 3);
    CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    CHECK_FALSE(std::filesystem::exists(tidemark.path("chart.png")));
    CHECK(tidemark.bytes("note") == "kept");
}
