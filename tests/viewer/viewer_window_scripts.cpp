// What a painter does in the window, followed from scripts/: each asserts what the window says of itself.
#include "viewer/window_scene.h"

#include "support/program_run.h"
#include "viewer/window/script.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace tidemark;

namespace {

namespace fs = std::filesystem;

const fs::path scripts = TIDEMARK_TESTS_DIR "/viewer/scripts";

std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// Pale above, dark below, as the plan wants it; `dark_end`: a third value at the right.
std::string picture_bytes(int width, int height, bool dark_end) {
    grid::Picture p{width, height, {}};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (int c = 0; c < 3; ++c)
                p.rgb.push_back(dark_end && 3 * x > 2 * width ? 40 : 2 * y < height ? 205 : 105);
    const auto bytes = grid::png_bytes(p);
    return {bytes.begin(), bytes.end()};
}

struct Follow {
    tests::OwnFolder folder;
    Follow() {
        std::string plan = text_of(scripts / "two-washes.toml");
        folder.file("plan.toml", plan);
        folder.file("three.toml", plan + "\n[area.spot]\nellipse_mm = [60, 15, 14, 10]\n\n[[step]]\nname = \"spot\"\ndo = \"wash\"\narea = \"spot\"\n"
                                         "mix = \"grey\"\nfilm_um = 60\n"); // an edge that nobody asked about
        folder.file("broken.toml", plan.replace(plan.find("film_um = 80"), 12, "film_um = -80"));
        folder.file("reference.png", picture_bytes(90, 60, false));
        folder.file("lesson/plan.toml", text_of(scripts / "two-washes.toml"));
        folder.file("lesson/reference.png", picture_bytes(90, 60, false));
        folder.file("lesson/lesson.toml", "tidemark = 1\nnumber = 1\ntitle = \"Into a moist sky\"\ncell_mm = 2\nmoments = [\"0:30\", \"1:00\", \"3:30\", \"5:00\"]\n"
                                          "[[sheet]]\nplan = \"plan.toml\"\nwatch = \"hill\"\n");
        folder.file("photograph.png", picture_bytes(300, 200, true));
        setenv("OUT", folder.path.c_str(), 1);
        setenv("PRESETS", TIDEMARK_PRESETS_DIR, 1);
    }
    viewer::FrameTimes times;
    /// Most need no more than a draft.
    void operator()(const char* script, double fine_cell_mm = 0) {
        viewer::AppOptions options = tests::hidden_options(folder, 1100, 760);
        options.cell_mm = fine_cell_mm > 0 ? fine_cell_mm : 2;
        options.only_draft = fine_cell_mm == 0;
        options.draft_cell_mm = fine_cell_mm > 0 ? 4 : 0;
        viewer::App app(options);
        times = viewer::Script(scripts / script).run(app);
    }
};

} // namespace

TEST_CASE("a plan opens, is rehearsed and looked at in every way", "[behaviour][viewer]") { Follow()("looks.txt", 2); }
TEST_CASE("the sheet is compared with its reference in three ways, edges lead to their place", "[behaviour][viewer]") {
    Follow()("compare.txt");
}
TEST_CASE("the minute is moved by hand, by key, by playing, act by act", "[behaviour][viewer]") { Follow()("minutes.txt"); }
TEST_CASE("an act is moved: before and after, undo and redo, dropped, kept, saved", "[behaviour][viewer]") {
    Follow follow;
    follow("what-if.txt");
    const std::string saved = text_of(follow.folder.path / "plan.toml");
    CHECK_THAT(saved, Catch::Contains("# the later, the harder")); // the painter's words stay
    CHECK_THAT(saved, Catch::Contains("# small, so that it is soon dry"));
    CHECK_THAT(saved, !Catch::Contains("wait = \"3:00\""));
}
TEST_CASE("a broken plan shows what is wrong and is read again", "[wrong][viewer]") { Follow()("broken.txt"); }
TEST_CASE("what was changed is asked about on the way out", "[behaviour][viewer]") { Follow()("leaving.txt"); }
TEST_CASE("a plan is saved as another, with its pictures", "[behaviour][viewer]") {
    Follow follow;
    follow("saving.txt");
    CHECK(fs::exists(follow.folder.path / "other/moved.toml"));
    CHECK(fs::exists(follow.folder.path / "other/reference.png"));
    CHECK(text_of(follow.folder.path / "plan.toml") == text_of(scripts / "two-washes.toml"));
}
TEST_CASE("a lesson plays in class and pauses at its moments", "[behaviour][viewer]") { Follow()("class.txt"); }
TEST_CASE("a photograph's masses are chosen, named and undone with the mouse", "[behaviour][viewer]") { Follow()("photograph.txt"); }

TEST_CASE("acts are added to a plan, tried before they are", "[behaviour][viewer]") {
    Follow follow;
    follow("adding.txt");
    const std::string saved = text_of(follow.folder.path / "plan.toml");
    CHECK_THAT(saved, Catch::Contains("# neutral enough") && Catch::Contains("name = \"wash\"\ndo = \"wash\"\nafter = \"sky\"\nwait = \"0:00\"\nmix = \"blue\""));
}
TEST_CASE("a photograph becomes a plan of one's own acts, whose sheet is the command line's byte for byte", "[behaviour][viewer][long]") {
    Follow follow;
    follow("own-acts.txt", 4);
    const fs::path plan = follow.folder.path / "own/plan.toml", out = follow.folder.path / "cli";
    const tests::ProgramRun tidemark;
    REQUIRE(tidemark("rehearse '" + plan.string() + "' --out '" + out.string() + "' --cell 4 --quiet").code == 0);
    int compared = 0;
    for (const auto& file : fs::directory_iterator(out)) {
        if (file.path().filename() == "report.html")
            continue;
        INFO(file.path().filename());
        CHECK(text_of(file.path()) == text_of(follow.folder.path / "own/sheet" / file.path().filename()));
        ++compared;
    }
    CHECK(compared >= 10);
}

TEST_CASE("a script's mistakes are told with its line", "[wrong][viewer]") {
    tests::OwnFolder folder;
    const auto line_of = [&](const std::string& text) -> std::string {
        viewer::App app(tests::hidden_options(folder));
        try {
            viewer::Script(folder.file("a.txt", text)).run(app);
        } catch (const std::exception& e) {
            return e.what();
        }
        return "nothing was wrong";
    };
    CHECK_THAT(line_of("# fine\n\nclimb a hill\n"), Catch::Contains("a.txt:3") && Catch::Contains("climb"));
    CHECK_THAT(line_of("click the moon\n"), Catch::Contains("a.txt:1") && Catch::Contains("the moon"));
    CHECK_THAT(line_of("expect weather fine\n"), Catch::Contains("weather"));
    CHECK_THAT(line_of("expect page desk\n"), Catch::Contains("page is start"));
    CHECK_THAT(line_of("wait-for 0.1 page desk\n"), Catch::Contains("page desk") && Catch::Contains("start"));
    CHECK_THAT(line_of("key ctrl+nokey\n"), Catch::Contains("nokey"));
    CHECK_THAT(line_of("open ${NO_SUCH_NAME}\n"), Catch::Contains("NO_SUCH_NAME"));
    CHECK_THAT(line_of("screenshot a.jpg\n"), Catch::Contains(".png"));
    CHECK_THAT(line_of("pen a.toml\n"), Catch::Contains("unknown word \"pen\"")); // the end of a known one
    CHECK_THAT(line_of("size 1e300 800\n"), Catch::Contains("1e300"));
    CHECK_THAT(line_of("size 20 800\n"), Catch::Contains("320 to 8192"));
    CHECK_THAT(line_of("wheel nan\n"), Catch::Contains("nan"));
    CHECK(line_of("expect page start\nkey F1\nexpect page keys\n") == "nothing was wrong");
}
