// What the window shows, read back from its renderer; no screen is needed.
#include "colour/lab.h"
#include "grid/problem.h"
#include "viewer/app.h"

#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>

using namespace tidemark;

namespace {

using Rgb = std::array<int, 3>;
constexpr Rgb red{200, 40, 30}, blue{30, 60, 190}, bare{viewer::ground, viewer::ground, viewer::ground};

grid::Picture plain(int width, int height, Rgb c) {
    grid::Picture p{width, height, {}};
    for (int k = 0; k < width * height; ++k)
        for (const int part : c)
            p.rgb.push_back(static_cast<std::uint8_t>(part));
    return p;
}

Rgb at(const grid::Picture& p, int x, int y) { return {p.at(x, y)[0], p.at(x, y)[1], p.at(x, y)[2]}; }

SDL_Event key(SDL_Keycode code) {
    SDL_Event event{};
    event.type = SDL_KEYDOWN;
    event.key.keysym.sym = code;
    return event;
}

/// A wide red sheet and a square blue reference in a window of 400 × 200.
struct Scene {
    const int no_screen = setenv("SDL_VIDEODRIVER", "dummy", 1);
    viewer::App app{{plain(80, 40, red), plain(30, 30, blue)}, 400, 200, true};
};

} // namespace

TEST_CASE("the sheet stands left of its reference on the ground, both in proportion", "[behaviour][viewer]") {
    Scene s;
    const grid::Picture seen = s.app.seen();
    REQUIRE(seen.width == 400);
    REQUIRE(seen.height == 200);
    // Shares of (400 - 3 gaps of 24)/2 = 164: the sheet 164 × 82 from (24, 59), the reference 152 × 152 from (218, 24).
    CHECK(at(seen, 24, 59) == red);
    CHECK(at(seen, 187, 140) == red);
    CHECK(at(seen, 188, 100) == bare);
    CHECK(at(seen, 100, 58) == bare);
    CHECK(at(seen, 218, 24) == blue);
    CHECK(at(seen, 369, 175) == blue);
    CHECK(at(seen, 370, 100) == bare);
    CHECK(at(seen, 0, 0) == bare);
}

TEST_CASE("g shows greys of the same lightness, and colours again", "[behaviour][viewer]") {
    Scene s;
    REQUIRE(s.app.on_event(key(SDLK_g)));
    const Rgb grey = at(s.app.seen(), 100, 100);
    CHECK(grey[0] == grey[1]);
    CHECK(grey[1] == grey[2]);
    const auto code = static_cast<std::uint8_t>(grey[0]);
    // Half a code is up to 0.2 L* here.
    CHECK(colour::lstar_from_srgb({code, code, code}) == Approx(colour::lstar_from_srgb({200, 40, 30})).margin(0.25));
    REQUIRE(s.app.on_event(key(SDLK_g)));
    CHECK(at(s.app.seen(), 100, 100) == red);
}

TEST_CASE("escape, q and the window's own button close, other keys don't", "[behaviour][viewer]") {
    Scene s;
    SDL_Event quit{};
    quit.type = SDL_QUIT;
    CHECK_FALSE(s.app.on_event(key(SDLK_ESCAPE)));
    CHECK_FALSE(s.app.on_event(key(SDLK_q)));
    CHECK_FALSE(s.app.on_event(quit));
    CHECK(s.app.on_event(key(SDLK_a)));
}

TEST_CASE("pictures follow the window's size, down to nothing", "[behaviour][viewer]") {
    const auto large = viewer::places({{80, 40}}, 848, 1000);
    CHECK(large[0].w == 800);
    CHECK(large[0].h == 400);
    CHECK(large[0].y == 300);
    for (const SDL_Rect& r : viewer::places({{80, 40}, {30, 30}}, 1, 1)) {
        CHECK(r.w >= 1);
        CHECK(r.h >= 1);
    }
}

TEST_CASE("a folder without a sheet, and a path to nothing, are refused by name", "[wrong][viewer]") {
    CHECK_THROWS_WITH(viewer::sheet_file(TIDEMARK_TESTS_DIR),
                      Catch::Contains(TIDEMARK_TESTS_DIR) && Catch::Contains("no sheet.png"));
    CHECK_THROWS_AS(viewer::sheet_file("/nowhere/at/all.png"), grid::BadInput);
    CHECK(viewer::sheet_file(TIDEMARK_PRESETS_DIR "/papers.csv") == TIDEMARK_PRESETS_DIR "/papers.csv");
}
