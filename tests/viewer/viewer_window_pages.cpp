// The window without a plan: its pages, its keys, what it says of what can't be opened.
#include "viewer/window_scene.h"

#include "colour/lab.h"
#include "viewer/window/two_pictures.h"

#include <array>
#include <catch2/catch.hpp>

using namespace tidemark;
using tests::Window;

namespace {

using Rgb = std::array<int, 3>;
constexpr Rgb red{200, 40, 30}, blue{30, 60, 190};

grid::Picture plain(int width, int height, Rgb c) {
    grid::Picture p{width, height, {}};
    for (int k = 0; k < width * height; ++k)
        for (const int part : c)
            p.rgb.push_back(static_cast<std::uint8_t>(part));
    return p;
}

Rgb at(const grid::Picture& p, int x, int y) { return {p.at(x, y)[0], p.at(x, y)[1], p.at(x, y)[2]}; }

std::filesystem::path picture(const tests::OwnFolder& folder, const char* name, const grid::Picture& p) {
    const auto bytes = grid::png_bytes(p);
    return folder.file(name, std::string(bytes.begin(), bytes.end()));
}

} // namespace

TEST_CASE("the first page offers the demo paintings and every lesson", "[behaviour][viewer]") {
    Window w;
    CHECK(w.is("page") == "start");
    for (const char* name : {"orchard", "two-pears", "edges", "bloom", "glaze", "path", "Open"}) {
        INFO(name);
        const auto found = w.app.controls().find(name);
        REQUIRE(found);
        CHECK(found->where.width() > 10);
    }
}

TEST_CASE("F1 shows the keys and takes them away; letters on that page do nothing", "[behaviour][viewer]") {
    Window w;
    w.key(SDLK_F1);
    CHECK(w.is("page") == "keys");
    w.key(SDLK_d);
    CHECK(w.is("page") == "keys");
    w.key(SDLK_ESCAPE);
    CHECK(w.is("page") == "start");
}

TEST_CASE("text goes from 80 to 200 percent and no further, and is remembered", "[behaviour][viewer]") {
    Window w;
    const float small = w.app.controls().find("orchard")->where.height();
    for (int k = 0; k < 20; ++k)
        w.key(SDLK_PLUS, KMOD_LCTRL);
    CHECK(w.is("text percent") == "200");
    const grid::Picture large = w.app.seen();
    CHECK(large.width == 1000);
    for (int k = 0; k < 20; ++k)
        w.key(SDLK_MINUS, KMOD_LCTRL);
    CHECK(w.is("text percent") == "80");
    CHECK(w.app.controls().find("orchard")->where.height() != small);
}

TEST_CASE("l changes the surroundings", "[behaviour][viewer]") {
    Window w;
    const Rgb light = at(w.app.seen(), 3, 3);
    w.key(SDLK_l);
    CHECK(w.is("surroundings") == "dark");
    const Rgb dark = at(w.app.seen(), 3, 3);
    CHECK(dark[0] < light[0] - 100);
}

TEST_CASE("Tab and Enter press what a click presses", "[behaviour][viewer]") {
    Window w;
    for (int k = 0; k < 40 && w.is("focus") != "edges"; ++k)
        w.key(SDLK_TAB);
    REQUIRE(w.is("focus") == "edges");
    w.key(SDLK_RETURN);
    INFO(w.is("note"));
    CHECK(w.is("page") == "classroom");
}

TEST_CASE("what can't be opened is told in one line, and nothing changes", "[wrong][viewer]") {
    Window w;
    CHECK_THROWS_AS(w.app.open("/nowhere/at/all.toml"), grid::BadInput);
    CHECK(w.is("page") == "start");
    REQUIRE(w.click("path"));
    for (const char c : std::string("/nowhere.png")) {
        SDL_Event e{};
        e.type = SDL_TEXTINPUT;
        e.text.text[0] = c;
        w.app.on_event(e);
        w.frames(1);
    }
    w.key(SDLK_RETURN);
    w.frames(2);
    CHECK(w.is("page") == "start");
    CHECK_THAT(w.is("note"), Catch::Contains("/nowhere.png"));
}

TEST_CASE("letters typed into a field are no commands", "[behaviour][viewer]") {
    Window w;
    REQUIRE(w.click("path"));
    w.key(SDLK_l);
    CHECK(w.is("surroundings") == "light");
}

TEST_CASE("a finished run stands beside its reference at one zoom, both in proportion", "[behaviour][viewer]") {
    Window w(1000, 500);
    picture(w.folder, "run/sheet.png", plain(80, 40, red));
    w.app.open(w.folder.path / "run", picture(w.folder, "reference.png", plain(30, 30, blue)));
    w.frames(3);
    CHECK(w.is("page") == "pictures");
    const grid::Picture seen = w.app.seen();
    CHECK(at(seen, 250, 270) == red);
    CHECK(at(seen, 750, 270) == blue);
    CHECK(at(seen, 250, 90) == at(seen, 500, 270)); // the mat above a wide sheet, and between the two
    w.key(SDLK_v);
    const Rgb grey = at(w.app.seen(), 250, 270);
    CHECK(grey[0] == grey[1]);
    CHECK(grey[1] == grey[2]);
    const auto code = static_cast<std::uint8_t>(grey[0]);
    // Half a code is up to 0.2 L* here.
    CHECK(colour::lstar_from_srgb({code, code, code}) == Approx(colour::lstar_from_srgb({200, 40, 30})).margin(0.25));
    w.key(SDLK_v);
    CHECK(at(w.app.seen(), 250, 270) == red);
    w.key(SDLK_ESCAPE);
    CHECK(w.is("page") == "start");
}

TEST_CASE("a folder without a sheet, and a path to nothing, are refused by name", "[wrong][viewer]") {
    CHECK_THROWS_WITH(viewer::sheet_file(TIDEMARK_TESTS_DIR),
                      Catch::Contains(TIDEMARK_TESTS_DIR) && Catch::Contains("no sheet.png"));
    CHECK_THROWS_AS(viewer::sheet_file("/nowhere/at/all.png"), grid::BadInput);
    CHECK(viewer::sheet_file(TIDEMARK_PRESETS_DIR "/papers.csv") == TIDEMARK_PRESETS_DIR "/papers.csv");
}

TEST_CASE("the window's own button closes a window in which nothing would be lost", "[behaviour][viewer]") {
    Window w;
    SDL_Event quit{};
    quit.type = SDL_QUIT;
    CHECK_FALSE(w.app.on_event(quit));
    CHECK(w.app.closing());
}

namespace {

/// Until it is so, with frames between; false after a minute.
template <class F> bool comes_to(Window& w, F&& so) {
    for (int k = 0; k < 6000; ++k) {
        w.frames(1);
        if (so())
            return true;
        SDL_Delay(10);
    }
    return false;
}

bool tab_to(Window& w, const std::string& name) {
    for (int k = 0; k < 120; ++k) {
        w.key(SDLK_TAB);
        if (w.is("focus").starts_with(name))
            return true;
    }
    return false;
}

} // namespace

TEST_CASE("from a photograph to a plan without a mouse: a mark on the masses, the Tab key for all else", "[behaviour][viewer]") {
    Window w;
    grid::Picture p = plain(150, 100, {230, 230, 230});
    for (int y = 50; y < 100; ++y)
        for (int x = 0; x < 150; ++x)
            for (int c = 0; c < 3; ++c)
                p.at(x, y)[c] = x < 75 ? 120 : 40;
    w.app.open(picture(w.folder, "hills.png", p));
    REQUIRE(comes_to(w, [&] { return w.is("masses") == "3" && w.is("busy") == "no"; }));
    w.key(SDLK_m);
    REQUIRE(w.is("mark") != "none");
    const auto go_to = [&](const char* mass, SDL_Keycode along, SDL_Keycode across) {
        for (int k = 0; k < 90 && w.is("place") != mass; ++k)
            w.key(k % 2 == 0 ? along : across);
        return w.is("place") == mass;
    };
    REQUIRE(go_to("2", SDLK_DOWN, SDLK_LEFT));
    w.key(SDLK_RETURN);
    CHECK(w.is("mass") == "2");
    REQUIRE(tab_to(w, "join with"));
    w.key(SDLK_RETURN);
    CHECK(w.is("hand") == "join");
    w.key(SDLK_m); // the arrows are the mark's again
    REQUIRE(w.is("mark") != "none");
    REQUIRE(go_to("3", SDLK_RIGHT, SDLK_RIGHT));
    w.key(SDLK_RETURN);
    REQUIRE(comes_to(w, [&] { return w.is("masses") == "2" && w.is("busy") == "no"; }));
    w.key(SDLK_a);
    REQUIRE(comes_to(w, [&] { return w.app.controls().find("Add an act").has_value(); }));
    w.key(SDLK_RETURN); // where the mark is
    CHECK(w.is("adding") == "yes");
    CHECK(w.is("area") == "mass-2");
    REQUIRE(comes_to(w, [&] { return w.is("tried") == "yes"; }));
    REQUIRE(tab_to(w, "PB29 ultramarine blue"));
    const std::string before = w.is("dries to");
    for (int k = 0; k < 20; ++k)
        w.key(SDLK_UP);
    REQUIRE(comes_to(w, [&] { return w.is("tried") == "yes"; }));
    CHECK(w.is("dries to") != before);
    REQUIRE(tab_to(w, "Add:"));
    // What the keyboard has come to is in sight.
    CHECK(w.app.controls().find("Add: wash")->where.height() > 10);
    w.key(SDLK_RETURN);
    CHECK(w.is("acts") == "1");
    REQUIRE(tab_to(w, "Make the plan"));
    w.key(SDLK_RETURN);
    REQUIRE(comes_to(w, [&] { return w.is("page") == "desk" && w.is("opening") == "no"; }));
    CHECK(w.is("problems") == "0");
    w.key(SDLK_m);
    REQUIRE(comes_to(w, [&] { return w.is("glass") != "none"; }));
    const std::string at = w.is("mark");
    w.key(SDLK_LEFT);
    CHECK(w.is("mark") != at);
    w.key(SDLK_ESCAPE);
    CHECK(w.is("mark") == "none");
    CHECK(w.is("page") == "desk");
}
