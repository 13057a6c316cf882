// Advice, as a painter is told it.
#include <catch2/catch.hpp>

#include "grid/csv.h"
#include "support/html_check.h"
#include "support/program_run.h"
#include "support/sky_and_hills.h"

using namespace tidemark;
using namespace tidemark::tests;

TEST_CASE("rehearse --advise says what would mend an edge, in words, in tables and on the page", "[law][cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", plan_text({.width_mm = 44, .height_mm = 32, .blue_percent = 1, .hills_start = "after = \"sky\"\nwait = \"0:20\"", .edge = "hard"}));
    const Said said = tidemark("rehearse plan.toml --advise --cell 1 --out sheet");
    REQUIRE(said.code == 0);
    CHECK_THAT(said.out, Catch::Contains("Advice, each piece tried:\n  1. begin \"hills\" ") &&
                             Catch::Contains("When to begin (not as wanted, or little time to spare"));
    const auto advice = grid::CsvTable::parse(tidemark.bytes("sheet/advice.csv"), "advice.csv");
    REQUIRE(advice.rows() > 0);
    CHECK_THAT(advice.text(0, "vary"), Catch::StartsWith("hills.wait="));
    const auto moments = grid::CsvTable::parse(tidemark.bytes("sheet/moments.csv"), "moments.csv");
    REQUIRE(moments.rows() == 1);
    CHECK(moments.number(0, "earliest_min") > moments.number(0, "planned_min"));
    CHECK_THAT(moments.text(0, "says"), Catch::StartsWith("from "));
    const std::string page = tidemark.bytes("sheet/report.html");
    CHECK(HtmlCheck(page).problems == std::vector<std::string>{});
    CHECK_THAT(page, Catch::Contains("<li>begin &quot;hills&quot; ") || Catch::Contains("<li>begin \"hills\" "));
}
