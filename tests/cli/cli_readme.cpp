// What README.md promises is what the program does.
#include "support/program_run.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>
#include <utility>

using namespace tidemark;
using namespace tidemark::tests;

namespace {

const std::filesystem::path source = TIDEMARK_SOURCE_DIR;

std::string text_of(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

const std::string readme = text_of(source / "README.md");

/// The text between ```toml and ```.
std::string example_plan() {
    const std::size_t start = readme.find("```toml\n");
    REQUIRE(start != std::string::npos);
    return readme.substr(start + 8, readme.find("```", start + 8) - start - 8);
}

} // namespace

TEST_CASE("the small whole plan of the README needs nothing else to be rehearsed and judged", "[cli]") {
    const ProgramRun tidemark;
    tidemark.put("plan.toml", example_plan());
    const Said said = tidemark("rehearse plan.toml --cell 4 --until 20:00 --out sheet");
    CHECK(said.err.empty());
    CHECK(said.code == 0);
}

TEST_CASE("the README names every paper, room and pigment", "[cli]") {
    for (const char* table : {"papers.csv", "rooms.csv", "pigments.csv"}) {
        std::istringstream rows(text_of(source / "presets" / table));
        std::string row;
        int named = 0;
        bool header = true;
        while (std::getline(rows, row)) {
            if (row.empty() || row.front() == '#')
                continue;
            if (!std::exchange(header, false)) {
                CHECK_THAT(readme, Catch::Contains(fmt::format("`{}`", row.substr(0, row.find(',')))));
                ++named;
            }
        }
        CHECK(named > 5);
    }
}

TEST_CASE("every option in the README's tables is one of its command, and the other way round", "[cli]") {
    static const std::regex option("--[a-z]+(-[a-z]+)*");
    const auto table_of = [](const std::string& command) {
        const std::size_t start = readme.find(fmt::format("| option of {} |", command));
        REQUIRE(start != std::string::npos);
        return readme.substr(start, readme.find("\n\n", start) - start);
    };
    for (const auto& [command, options] : {std::pair("rehearse", 9), std::pair("transfer", 18), std::pair("squint", 19), std::pair("draft", 15), std::pair("lesson", 5), std::pair("ask", 10)}) {
        const bool of_masses = command != std::string("rehearse") && command != std::string("lesson") && command != std::string("ask");
        const std::string table = table_of(command) + (of_masses ? table_of("all three") : "");
        const std::string help = ProgramRun()(fmt::format("{} --help", command)).out;
        for (std::sregex_iterator it(help.begin(), help.end(), option), end; it != end; ++it)
            if (it->str() != "--help")
                CHECK_THAT(table, Catch::Contains(fmt::format("| `{} ", it->str())) ||
                                      Catch::Contains(fmt::format("| `{}`", it->str())));
        static const std::regex row("\\| `(--[a-z-]+)");
        int rows = 0;
        for (std::sregex_iterator it(table.begin(), table.end(), row), end; it != end; ++it, ++rows)
            CHECK_THAT(help, Catch::Contains((*it)[1].str()));
        CHECK(rows == options);
    }
}

TEST_CASE("every file and picture that the README links is there", "[cli]") {
    static const std::regex link("\\]\\(([^)h#][^)]*)\\)");
    int links = 0;
    for (std::sregex_iterator it(readme.begin(), readme.end(), link), end; it != end; ++it, ++links) {
        INFO((*it)[1].str());
        CHECK(std::filesystem::exists(source / (*it)[1].str()));
    }
    CHECK(links >= 8);
}

TEST_CASE("what the README shows of check's values is what check prints", "[cli]") {
    const std::size_t start = readme.find("```\n  mix  ");
    REQUIRE(start != std::string::npos);
    const std::string shown = readme.substr(start + 4, readme.find("```", start + 4) - start - 4);
    CHECK(std::count(shown.begin(), shown.end(), '\n') == 5);
    CHECK_THAT(ProgramRun()("check " + two_pears).out, Catch::Contains(shown));
}

TEST_CASE("each snippet of the README's tour stands so in a plan that is played, and each of these plans is shown", "[cli]") {
    const std::string folder = "tests/behaviour/tour/";
    std::set<std::string> shown;
    static const std::regex snippet("\\]\\((tests/behaviour/tour/[^)]*\\.toml)\\):\n\n```toml\n([^`]*)```");
    for (std::sregex_iterator it(readme.begin(), readme.end(), snippet), end; it != end; ++it) {
        const std::string file = (*it)[1].str();
        shown.insert(file);
        CHECK_THAT(text_of(source / file), Catch::Contains((*it)[2].str()));
    }
    static const std::regex link("\\]\\(tests/behaviour/tour/[^)]*\\.toml\\)");
    CHECK(std::distance(std::sregex_iterator(readme.begin(), readme.end(), link), {}) >= 19);
    std::set<std::string> plans;
    for (const auto& entry : std::filesystem::directory_iterator(source / folder))
        if (entry.path().extension() == ".toml")
            plans.insert(folder + entry.path().filename().string());
    CHECK(shown == plans);
}
