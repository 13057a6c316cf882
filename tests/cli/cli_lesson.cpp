// `tidemark lesson` from outside: what it makes of each lesson, and one line for each mistake.
#include "grid/picture.h"
#include "support/gif_decoder.h"
#include "support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <sstream>

using namespace tidemark;
using namespace tidemark::tests;
namespace fs = std::filesystem;

namespace {

const fs::path lessons = fs::path(TIDEMARK_PRESETS_DIR) / "lessons";
const std::string names = "edges, back, bloom, tidemark, lap, bead, granulation, glaze";

std::set<std::string> files_in(const fs::path& folder) {
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder)) found.insert(entry.path().filename().string());
    return found;
}

std::string text_of(const fs::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

} // namespace

TEST_CASE("a lesson is a strip, an animation, the dried sheet and a page", "[cli]") {
    const ProgramRun tidemark;
    const Said said = tidemark("lesson edges --out made --cell 4 --threads 1");
    CHECK(said.err.empty());
    CHECK(said.code == 0);
    CHECK(said.out == "An edge against waiting\nRead made/page.md, look at made/strip.png and made/lesson.gif\n");
    CHECK(files_in(tidemark.path("made")) == std::set<std::string>{"strip.png", "lesson.gif", "sheet.png", "page.md"});
    CHECK(tidemark.bytes("made/page.md") == text_of(lessons / "edges/page.md"));
    CHECK(grid::read_picture(tidemark.path("made/strip.png")).width == 2400);
    const PlayedGif gif = play_gif(tidemark.bytes("made/lesson.gif"));
    CHECK(gif.pictures.size() == 1 + 8 * 5 + 1); // bare, eight to each of five moments, dry
    CHECK(gif.pictures.front().rgb != gif.pictures.back().rgb);
    REQUIRE(tidemark("rehearse '" + (lessons / "edges/plan.toml").string() + "' --out sheet --cell 4 --quiet").code == 0);
    CHECK(tidemark.bytes("made/sheet.png") == tidemark.bytes("sheet/sheet.png"));
    REQUIRE(tidemark("lesson edges --out two --cell 4 --threads 2 --quiet").out.empty());
    for (const std::string file : {"strip.png", "lesson.gif", "sheet.png"}) CHECK(tidemark.bytes("made/" + file) == tidemark.bytes("two/" + file));
}

TEST_CASE("a lesson of two sheets shows both", "[cli]") {
    const ProgramRun tidemark;
    REQUIRE(tidemark("lesson granulation --out made --cell 4 --quiet").code == 0);
    CHECK(files_in(tidemark.path("made")) == std::set<std::string>{"strip.png", "lesson.gif", "sheet-a.png", "sheet-b.png", "page.md"});
}

TEST_CASE("the lessons are listed in their order, have a page that begins with their title, and plans that check without a word of warning", "[cli]") {
    const ProgramRun tidemark;
    const Said list = tidemark("lesson --list");
    CHECK(list.code == 0);
    CHECK(std::count(list.out.begin(), list.out.end(), '\n') == 8);
    CHECK_THAT(list.out, Catch::StartsWith(" 1  edges        An edge against waiting\n 2  back  "));
    int plans = 0;
    for (const auto& lesson : fs::directory_iterator(lessons)) {
        if (!fs::exists(lesson.path() / "lesson.toml")) continue;
        INFO(lesson.path());
        const std::string page = text_of(lesson.path() / "page.md"), title = page.substr(2, page.find('\n') - 2);
        CHECK_THAT(list.out, Catch::Contains("  " + title + "\n"));
        CHECK_THAT(page, Catch::Contains("**Look at**") && Catch::Contains("**When:**") && Catch::Contains("**Why:**") && Catch::Contains("**Try next:**"));
        CHECK(std::count(page.begin(), page.end(), '\n') <= 24);
        for (const auto& file : fs::directory_iterator(lesson.path())) {
            if (file.path().extension() != ".toml" || file.path().filename() == "lesson.toml") continue;
            ++plans;
            const Said said = tidemark("check '" + file.path().string() + "'");
            CHECK(said.code == 0);
            CHECK(said.err.empty());
            CHECK_THAT(said.out, Catch::Contains("No act is due while the hand is busy with another.\n"));
        }
    }
    CHECK(plans == 11);
}

TEST_CASE("lesson tells a mistake in one line and writes nothing", "[wrong][cli]") {
    const ProgramRun tidemark;
    const std::pair<std::string, std::string> mistakes[] = {
        {"", "NAME: is missing; allowed: " + names},
        {"--out made", "NAME: is missing; allowed: " + names},
        {"skies --out made", "NAME: unknown lesson \"skies\"; allowed: " + names},
        {"edge --out made", "NAME: unknown lesson \"edge\"; did you mean \"edges\"?; allowed: " + names},
        {"edges", "--out: is missing; allowed: a folder's name"},
        {"edges --out ''", "--out: is empty; allowed: a folder's name"},
        {"edges --out made --cell 9", "--cell: 9 mm; allowed: 0.1 to 4"},
        {"edges --out made --cell 0", "--cell: 0 mm; allowed: 0.1 to 4"},
        {"edges --out made --cell fine", "--cell: \"fine\" is no number; allowed: 0.1 to 4"},
        {"edges --out made --threads -1", "--threads: -1; allowed: 1 to 256, or 0: one a core"},
        {"edges --out made more", "\"more\" is one word too many; see tidemark lesson --help"}};
    for (const auto& [arguments, line] : mistakes) {
        INFO("lesson " << arguments);
        const Said said = tidemark("lesson " + arguments);
        CHECK(said.err == line + "\n");
        CHECK(said.out.empty());
        CHECK(said.code == 2);
    }
    CHECK_FALSE(fs::exists(tidemark.path("made")));
}

TEST_CASE("a lesson of one's own is found beside the tables, and told what is wrong with it", "[wrong][cli]") {
    const ProgramRun tidemark;
    fs::create_directories(tidemark.path("tables/lessons"));
    for (const auto& entry : fs::directory_iterator(TIDEMARK_PRESETS_DIR))
        if (entry.path().extension() == ".csv") fs::copy(entry.path(), tidemark.path("tables") / entry.path().filename());
    fs::copy(lessons / "edges", tidemark.path("tables/lessons/mine"));
    std::string text = text_of(lessons / "edges/lesson.toml");
    const std::string watch = "watch = \"open\"";
    REQUIRE(text.find(watch) != std::string::npos);
    text.replace(text.find(watch), watch.size(), "watch = \"opn\"");
    tidemark.put("tables/lessons/mine/lesson.toml", text);
    const std::string run = "cd '" + tidemark.path("").string() + "' && TIDEMARK_PRESETS=tables '" TIDEMARK_PROGRAM "' lesson mine --out made 2>said";
    const int status = std::system(run.c_str());
    CHECK(WEXITSTATUS(status) == 2);
    CHECK(tidemark.bytes("said") == "tables/lessons/mine/lesson.toml:10: [[sheet]]: watch \"opn\" is no area of plan.toml\n");
    CHECK_FALSE(fs::exists(tidemark.path("made")));
}
