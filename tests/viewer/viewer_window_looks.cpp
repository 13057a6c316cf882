// Colours that can be read, keys that mean one thing, a sheet that is where it says.
#include "viewer/window/canvas.h"
#include "viewer/window/commands.h"
#include "viewer/window/controls.h"
#include "viewer/window/sheet_view.h"
#include "viewer/window/strip.h"
#include "viewer/window/theme.h"

#include <catch2/catch.hpp>
#include <set>
#include <tuple>

using namespace tidemark::viewer;

TEST_CASE("every text stands at 4.5:1 or more on its ground, in light and dark surroundings", "[law][viewer]") {
    CHECK(contrast(rgb(0xFFFFFF), rgb(0x000000)) == Approx(21).margin(0.01)); // WCAG 2: the widest there is
    for (const Theme& t : {light_theme(), dark_theme()})
        for (const Pair& p : text_pairs(t)) {
            INFO((t.dark ? "dark: " : "light: ") << p.what);
            CHECK(contrast(p.text, p.ground) >= 4.5);
        }
}

TEST_CASE("the sheet's surround is the same neutral grey in both surroundings", "[law][viewer]") {
    const Colour mat = light_theme().mat;
    CHECK(mat == dark_theme().mat);
    CHECK((mat & 0xFF) == ((mat >> 8) & 0xFF));
    CHECK((mat & 0xFF) == ((mat >> 16) & 0xFF));
}

TEST_CASE("no two keys are the same, and all that can be done has a key", "[law][viewer]") {
    std::set<std::tuple<SDL_Keycode, int>> keys;
    std::set<Do> done;
    for (const Command& c : commands()) {
        INFO(c.key);
        CHECK(keys.emplace(c.code, c.held).second);
        if (c.words != nullptr)
            CHECK(done.insert(c.what).second); // one line on the page
    }
    for (int k = 0; k <= static_cast<int>(Do::close); ++k)
        CHECK(done.count(static_cast<Do>(k)) == 1);
}

TEST_CASE("a sign that needs Shift is obeyed, a letter with Shift is not the letter", "[behaviour][viewer]") {
    const auto press = [](SDL_Keycode code, int held) {
        SDL_KeyboardEvent e{};
        e.keysym.sym = code;
        e.keysym.mod = static_cast<Uint16>(held);
        return command_of(e);
    };
    CHECK(press(SDLK_PLUS, KMOD_LSHIFT) == Do::closer);
    CHECK(press(SDLK_QUESTION, KMOD_RSHIFT) == Do::keys);
    CHECK(press(SDLK_d, 0) == Do::look_dried);
    CHECK_FALSE(press(SDLK_d, KMOD_LSHIFT));
    CHECK(press(SDLK_z, KMOD_RCTRL) == Do::undo);
    CHECK(press(SDLK_z, KMOD_LCTRL | KMOD_LSHIFT) == Do::redo);
    CHECK(press(SDLK_LEFT, KMOD_NUM) == Do::earlier); // a lock is no key held
    CHECK_FALSE(press(SDLK_F7, 0));
}

TEST_CASE("zooming keeps what is under the pointer, and places go there and back", "[law][viewer]") {
    SheetView view;
    const Rect pane{100, 50, 900, 650};
    view.place(pane);
    view.of_sheet(380, 280);
    CHECK(view.fitted());
    CHECK(view.width_mm() * view.px_per_mm() <= pane.width());
    CHECK(view.height_mm() * view.px_per_mm() <= pane.height());
    const Spot_mm before = view.mm(300, 200, pane);
    view.zoom(2.5, 300, 200);
    const Spot_mm after = view.mm(300, 200, pane);
    CHECK(after.x == Approx(before.x));
    CHECK(after.y == Approx(before.y));
    float x = 0, y = 0;
    view.px({123, 45}, pane, x, y);
    CHECK(view.mm(x, y, pane).x == Approx(123).margin(0.01));
    CHECK(view.mm(x, y, pane).y == Approx(45).margin(0.01));
    for (int k = 0; k < 50; ++k)
        view.pan(500, 500);
    CHECK(view.middle().x == 0); // it never leaves the sheet
    view.zoom_to(96 / 25.4); // as on paper: a screen of 96 dots an inch
    view.px({0, 0}, pane, x, y);
    float x2 = 0, y2 = 0;
    view.px({25.4, 0}, pane, x2, y2);
    CHECK(x2 - x == Approx(96).margin(0.01));
}

TEST_CASE("the sheet is drawn where the view has it, cells shrink to their mean", "[law][viewer]") {
    // Left half black, right half white, 8 × 4 cells of 10 mm.
    Pixels p{8, 4, {}};
    for (int y = 0; y < 4; ++y)
        for (int x = 0; x < 8; ++x)
            for (int c = 0; c < 4; ++c)
                p.rgba.push_back(c == 3 || x >= 4 ? 255 : 0);
    SheetView view;
    const Rect pane{0, 0, 200, 100};
    view.of_sheet(80, 40);
    view.place(pane);
    view.zoom_to(2);
    Canvas canvas;
    canvas.size(200, 100, rgb(0x808080));
    stroke(canvas, {}, {}); // nothing to draw is no fault
    draw_sheet(canvas, pane, view, pane, p, 0, 200);
    const auto at = [&](int x, int y) { return canvas.px[static_cast<std::size_t>(y) * 200 + x] & 0xFF; };
    CHECK(at(19, 50) == 0x80); // the sheet spans 20 to 180
    CHECK(at(20, 50) == 0);
    CHECK(at(179, 50) >= 254);
    CHECK(at(180, 50) == 0x80);
    CHECK(at(100, 9) == 0x80);
    CHECK(at(100, 10) != 0x80);
    CHECK(at(99, 50) < at(100, 50));
    CHECK(std::abs(static_cast<int>(at(99, 50) + at(100, 50)) - 255) <= 2); // linear about the middle
    // Only the columns asked for: a curtain.
    canvas.size(200, 100, rgb(0x808080));
    draw_sheet(canvas, pane, view, pane, p, 0, 60);
    CHECK(at(59, 50) == 0);
    CHECK(at(60, 50) == 0x80);
    // Stripes one cell wide, four cells to a pixel: grey.
    Pixels stripes{640, 4, {}};
    for (int k = 0; k < 640 * 4; ++k)
        for (int c = 0; c < 4; ++c)
            stripes.rgba.push_back(c == 3 || k % 2 == 1 ? 255 : 0);
    canvas.size(200, 100, rgb(0x808080));
    draw_sheet(canvas, pane, view, pane, stripes, 0, 200);
    CHECK(std::abs(static_cast<int>(at(77, 50)) - 127) <= 1);
}

TEST_CASE("lines drawn apart and laid over a picture are those drawn into it", "[law][viewer]") {
    const auto draw = [](Canvas& c) {
        stroke(c, {{-5, 3}, {20, 12.3F}, {60, 9}, {61, 9}, {120, 31}}, {rgb(0xFFFFFF), 7, 0, 0, 0.6F});
        stroke(c, {{-5, 3}, {20, 12.3F}, {60, 9}, {61, 9}, {120, 31}}, {rgb(0x18A0C0), 3, 6, 3});
    };
    Canvas into, below, over;
    into.size(100, 40, rgb(0x805020));
    below.size(100, 40, rgb(0x805020));
    over.size(100, 40, 0);
    draw(into), draw(over), lay_over(below, over);
    int worst = 0, touched = 0;
    for (std::size_t k = 0; k < into.px.size(); ++k) {
        touched += into.px[k] != rgb(0x805020);
        for (unsigned shift = 0; shift < 32; shift += 8)
            worst = std::max(worst, std::abs(static_cast<int>(into.px[k] >> shift & 0xFF) - static_cast<int>(below.px[k] >> shift & 0xFF)));
    }
    CHECK(touched > 500);
    CHECK(worst <= 3); // of 255: each is rounded in its own way
}

TEST_CASE("a pen draws its dashes", "[law][viewer]") {
    Canvas canvas;
    canvas.size(100, 9, rgb(0xFFFFFF));
    stroke(canvas, {{0, 4.5F}, {100, 4.5F}}, {rgb(0), 3, 10, 10});
    const auto dark = [&](int x) { return (canvas.px[4 * 100 + static_cast<std::size_t>(x)] & 0xFF) < 40; };
    CHECK(dark(5));
    CHECK_FALSE(dark(15));
    CHECK(dark(25));
    CHECK_FALSE(dark(35));
}

TEST_CASE("the axis has as many marks as there is room for, in minutes a painter counts in", "[law][viewer]") {
    CHECK(axis_step_min(8 * 60, 8) == 1);
    CHECK(axis_step_min(40 * 60, 8) == 5);
    CHECK(axis_step_min(95 * 60, 8) == 15);
    CHECK(axis_step_min(40 * 3600, 8) == 300);
    CHECK(clock_text(460) == "7:40");
    CHECK(clock_text(95 * 60) == "95:00");
    CHECK(clock_text(-3) == "0:00");
}

TEST_CASE("Tab goes round all that can be pressed, both ways; a name is found by its beginning", "[behaviour][viewer]") {
    Controls c;
    c.note("play", {0, 0, 10, 10}, true);
    c.note("sheet", {0, 0, 10, 10}, false);
    c.note("edges", {0, 0, 10, 10}, true);
    c.note("edge 1: sky | hill", {0, 0, 10, 10}, true);
    CHECK(c.next("", false) == "play");
    CHECK(c.next("play", false) == "edges");
    CHECK(c.next("edge 1: sky | hill", false) == "play");
    CHECK(c.next("play", true) == "edge 1: sky | hill");
    CHECK(c.find("edge 1")->name == "edge 1: sky | hill");
    CHECK(c.find("edges")->name == "edges");
    CHECK_FALSE(c.find("ed")); // two begin so
    CHECK_FALSE(c.find("nothing"));
}
