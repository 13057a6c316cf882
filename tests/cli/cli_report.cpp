// report.html as the program writes it.
#include <catch2/catch.hpp>

#include "support/html_check.h"
#include "support/program_run.h"

using namespace tidemark;
using namespace tidemark::tests;

TEST_CASE("a rehearsal's report is a valid page, the same for one thread and two", "[law][cli]") {
    const ProgramRun tidemark;
    for (const std::string threads : {"1", "2"})
        REQUIRE(tidemark("rehearse " + two_pears + " --cell 4 --quiet --out " + threads + " --threads " + threads).code == 0);
    const std::string text = tidemark.bytes("1/report.html");
    CHECK((text == tidemark.bytes("2/report.html")));
    const HtmlCheck page(text);
    CHECK(page.problems == std::vector<std::string>{});
    CHECK(page.count("img") == 6);
    CHECK_THAT(text.substr(0, 400), Catch::Contains("<title>two-pears: cue sheet and result</title>"));
    CHECK(text.size() < 600'000);
}

TEST_CASE("a run that is stopped has a report, which says where it stopped", "[law][cli]") {
    const ProgramRun tidemark;
    REQUIRE(tidemark("rehearse " + two_pears + " --cell 4 --quiet --out out --until 3:00").code == 0);
    const std::string text = tidemark.bytes("out/report.html");
    CHECK(HtmlCheck(text).problems == std::vector<std::string>{});
    CHECK(text.find("Stopped at 3:00, not dry yet") != std::string::npos);
    CHECK(text.find("not played in this run") != std::string::npos);
}
