// The exact line for every kind of mistake on the command line, and what a stopped run leaves.
#include "support/program_run.h"

#include <catch2/catch.hpp>

using namespace tidemark::tests;

namespace {

struct Mistake {
    std::string arguments, line;
};

void check_each(const std::vector<Mistake>& mistakes) {
    const ProgramRun tidemark;
    for (const Mistake& m : mistakes) {
        const Said said = tidemark(m.arguments);
        INFO("tidemark " << m.arguments);
        CHECK(said.err == m.line + "\n");
        CHECK(said.out.empty());
        CHECK(said.code == 2);
    }
    CHECK_FALSE(std::filesystem::exists(tidemark.path("sheet")));
}

} // namespace

TEST_CASE("words that no command understands are named, with the nearest or all that are allowed", "[wrong][cli]") {
    const std::string see = "; see tidemark rehearse --help", all = "; allowed: rehearse, look, ask, check, draft, swatches, transfer, squint, lesson";
    check_each({
        {"", "a command is missing" + all},
        {"paint x", "unknown command \"paint\"" + all},
        {"reherse x", "unknown command \"reherse\"; did you mean \"rehearse\"?"},
        {"--bogus", "unknown option \"--bogus\"; see tidemark --help"},
        {"rehearse", "PLAN is required" + see},
        {"rehearse x.toml", "--out is required" + see},
        {"rehearse x.toml --out sheet --treads 2", "unknown option \"--treads\"; did you mean \"--threads\"?"},
        {"rehearse x.toml --out sheet --colour", "unknown option \"--colour\"" + see},
        {"rehearse x.toml --out sheet more", "\"more\" is one word too many" + see},
        {"check ''", "PLAN: is empty; allowed: a file's name"},
        {"draft x.png --out ''", "--out: is empty; allowed: a folder's name"},
    });
}

TEST_CASE("a value that is no number is told the range", "[wrong][cli]") {
    const std::string run = "rehearse " + two_pears + " --out sheet ";
    const std::string threads = "allowed: 1 to 256, or 0: one a core";
    check_each({
        {run + "--cell half", "--cell: \"half\" is no number; allowed: 0.1 to 4"},
        {run + "--cell 1mm", "--cell: \"1mm\" is no number; allowed: 0.1 to 4"},
        {run + "--cell 1e400", "--cell: \"1e400\" is out of range; allowed: 0.1 to 4"},
        {run + "--threads 1.5", "--threads: \"1.5\" is no whole number; " + threads},
        {run + "--threads -1", "--threads: -1; " + threads},
        {run + "--threads 257", "--threads: 257; " + threads},
        {run + "--until ''", "--until: is empty; allowed: minutes:seconds, such as 7:40"},
    });
}

TEST_CASE("a run that the painter stops says when and leaves older results alone", "[wrong][cli]") {
    const ProgramRun tidemark;
    REQUIRE(tidemark("rehearse " + two_pears + " --cell 4 --until 0:10 --quiet --out sheet").code == 0);
    const std::string picture = tidemark.bytes("sheet/sheet.png"), edges = tidemark.bytes("sheet/edges.csv");
    REQUIRE_FALSE(picture.empty());
    // Fine cells: a minute of work and more. The signal comes long after the plan was read.
    const std::string line = "cd '" + tidemark.path("").string() +
                             "' && { TIDEMARK_PRESETS='" TIDEMARK_PRESETS_DIR "' '" TIDEMARK_PROGRAM "' rehearse " +
                             two_pears + " --cell 0.2 --out sheet 2>stopped & sleep 1.5; kill $!; wait $!; }";
    const int status = std::system(line.c_str());
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 130);
    CHECK_THAT(tidemark.bytes("stopped"),
               Catch::StartsWith("stopped at ") && Catch::EndsWith("; nothing was written\n"));
    CHECK(tidemark.bytes("sheet/sheet.png") == picture);
    CHECK(tidemark.bytes("sheet/edges.csv") == edges);
    for (const auto& entry : std::filesystem::directory_iterator(tidemark.path("sheet")))
        CHECK(entry.path().filename().string().front() != '.'); // no temporary is left
}

TEST_CASE("a second run replaces the first one's files", "[cli]") {
    const ProgramRun tidemark;
    const std::string run = "rehearse " + two_pears + " --cell 4 --quiet --out sheet --until ";
    REQUIRE(tidemark(run + "0:30").code == 0);
    const std::string first = tidemark.bytes("sheet/sheet.png");
    REQUIRE(tidemark(run + "4:00").code == 0);
    CHECK_FALSE(first.empty());
    CHECK_FALSE(tidemark.bytes("sheet/sheet.png").empty());
    CHECK(tidemark.bytes("sheet/sheet.png") != first);
}
