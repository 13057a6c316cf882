// Every wrong plan in tests/plan/bad is refused, and with exactly the lines of the .txt beside it. The folder is the
// list: a new case is two files.
#include "plan/plan_folder.h"
#include "grid/files.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

namespace fs = std::filesystem;
using namespace tidemark;

namespace {

std::vector<fs::path> wrong_plans() {
    std::vector<fs::path> plans;
    for (const auto& entry : fs::directory_iterator(TIDEMARK_TESTS_DIR "/plan/bad"))
        if (entry.path().extension() == ".toml")
            plans.push_back(entry.path());
    std::sort(plans.begin(), plans.end());
    return plans;
}

} // namespace

TEST_CASE("every wrong plan is refused with the line written beside it", "[wrong][plan]") {
    const PlanFolder folder;
    const std::vector<fs::path> plans = wrong_plans();
    CHECK(plans.size() >= 60);
    for (const fs::path& plan : plans) {
        fs::path expected = plan;
        expected.replace_extension(".txt");
        INFO(plan.filename().string());
        CHECK(folder.said(grid::read_text(plan), plan.filename().string()) + "\n" == grid::read_text(expected));
    }
}

TEST_CASE("a message without its plan is noticed", "[wrong][plan]") {
    for (const auto& entry : fs::directory_iterator(TIDEMARK_TESTS_DIR "/plan/bad")) {
        INFO(entry.path());
        fs::path plan = entry.path();
        CHECK(fs::exists(plan.replace_extension(".toml")));
    }
}

TEST_CASE("a plan that isn't there, is a folder or is huge is refused", "[wrong][plan]") {
    const PlanFolder folder;
    const auto& presets = PlanFolder::presets();
    CHECK_THROWS_AS(plan::read_plan(folder.path("none.toml"), presets), grid::BadInput);
    CHECK_THROWS_AS(plan::read_plan(folder.path("masks"), presets), grid::BadInput);
    CHECK(folder.said(std::string(2 << 20, '\n')) ==
          "plan.toml: the file is too large; allowed: at most 1048576 bytes");
    CHECK(folder.said("").find("tidemark is missing") != std::string::npos);
}

TEST_CASE("text that is cut anywhere never does worse than a message", "[wrong][plan]") {
    const PlanFolder folder;
    const std::string whole = grid::read_text(TIDEMARK_TESTS_DIR "/plan/good.toml");
    REQUIRE(folder.said(whole) == "");
    for (std::size_t length = 0; length < whole.size(); length += 7) {
        std::string damaged = whole.substr(0, length);
        folder.said(damaged);
        damaged += whole.substr(std::min(length + 3, whole.size())); // and with three letters lost
        folder.said(damaged);
    }
    const std::string deep(100000, '[');
    CHECK(folder.said("a = " + deep) != "");
    std::string dots = "a";
    for (int k = 0; k < 100000; ++k)
        dots += ".a";
    CHECK(folder.said(dots + " = 1") == "plan.toml:1: a key with more than 16 dots");
    CHECK(folder.said("\"" + dots + "\" = 1") != ""); // dots inside quotes are no levels
}

TEST_CASE("a hundred problems are shown, the rest counted", "[wrong][plan]") {
    const PlanFolder folder;
    std::string text = grid::read_text(TIDEMARK_TESTS_DIR "/plan/good.toml");
    for (int k = 0; k < 150; ++k)
        text += "\n[[want]]\nbetween = [\"sky\", \"hills\"]\n";
    const std::string said = folder.said(text);
    CHECK(std::count(said.begin(), said.end(), '\n') == 100);
    CHECK(said.find("and 50 more problems") != std::string::npos);
}
