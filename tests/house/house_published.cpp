// The README's table of published checks against the lines of this run: ctest runs every published test before this
// one (see tests/CMakeLists.txt). To write it anew: cmake --build build --target published_table
#include "support/house.h"
#include "support/published_table.h"

#include <catch2/catch.hpp>

using namespace tidemark::tests;
namespace fs = std::filesystem;

namespace {
using Texts = std::vector<std::string>;

const std::string water =
    "water_a.cpp\t00012\tdepth (worst of 2)\tA 1900\t2.00 mm\t2.01 mm\t± 0.1\t2.0123\t0.01\tmet\n";
const std::string air = "air_b.cpp\t00020\trate\tB 1950, C 1960\t≥ 3\t3.50\tbound\t3.4987\t0.06\tmet\n";

std::string readme(const std::string& rows) {
    return "# x\n\n| what | source | a | b | c |\n\n<!-- published checks: begin -->\n"
           "| what | source | expected | got | tolerance |\n|---|---|---|---|---|\n| **water** | | | | |\n" +
           rows + "<!-- published checks: end -->\n| no | row | of | the | table |\n";
}
const std::string depth_row = "| depth (worst of 2) | A 1900 | 2.00 mm | 2.01 mm | ± 0.1 |\n";
const std::string rate_row = "| rate | B 1950, C 1960 | ≥ 3 | 3.50 | bound |\n";

Texts stale(const std::string& rows, const std::string& lines) {
    Texts twice;
    return stale_rows(rows_of_readme(readme(rows)), rows_of_lines(lines, twice));
}
} // namespace

TEST_CASE("the README's table of published checks is what the tests say", "[law][house]") {
    std::string lines;
    if (fs::exists(fs::path(TIDEMARK_BUILD_DIR) / "published"))
        for (const auto& entry : fs::directory_iterator(fs::path(TIDEMARK_BUILD_DIR) / "published"))
            if (entry.path().extension() == ".tsv")
                lines += file_text(entry.path());
    Texts twice;
    const PublishedRows said = rows_of_lines(lines, twice);
    CHECK(twice == Texts{});
    INFO("to write the table anew: cmake --build build --target published_table");
    CHECK(stale_rows(rows_of_readme(file_text(fs::path(TIDEMARK_SOURCE_DIR) / "README.md")), said) == Texts{});
    CHECK(said.size() >= 25);
}

TEST_CASE("a row of the README that a test contradicts is seen", "[wrong][house]") {
    CHECK(stale(depth_row + rate_row, water + air) == Texts{});
    const auto with = [](std::string text, const std::string& a, const std::string& b) {
        const std::size_t at = text.find(a);
        REQUIRE(at != std::string::npos);
        return text.replace(at, a.size(), b);
    };
    CHECK(stale(with(depth_row, "2.00", "2.10") + rate_row, water + air).size() == 1);     // expected
    CHECK(stale(with(depth_row, "± 0.1", "± 0.2") + rate_row, water + air).size() == 1);   // tolerance
    CHECK(stale(with(depth_row, "2.01", "2.02") + rate_row, water + air).empty());         // got, another last digit
    CHECK(stale(with(depth_row, "2.01", "2.03") + rate_row, water + air).size() == 1);     // got, more than a tenth
    CHECK(stale(with(depth_row, "A 1900", "A 1901") + rate_row, water + air).size() == 2); // source
    CHECK(stale(depth_row, water + air) == Texts{"not in the README: rate (B 1950, C 1960)"});
    CHECK(stale(depth_row + rate_row, water) == Texts{"no test says: rate (B 1950, C 1960)"});
    CHECK(stale(depth_row + rate_row, water + with(air, "\tmet", "\tNOT MET")) == Texts{"not met: rate"});
    CHECK(stale(depth_row + rate_row, water + with(air, "3.4987", "nan")).size() == 1);
    Texts twice;
    rows_of_lines(water + air + water, twice);
    CHECK(twice == Texts{"depth (worst of 2)"});
    CHECK(rows_of_readme("no table\n").empty());
}
