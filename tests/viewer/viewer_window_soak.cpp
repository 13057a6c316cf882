// Random hands and keys: run it by its name, `viewer_test "[long]"`, under the sanitizers for as long as you like.
#include "viewer/window_scene.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdlib>
#include <random>

#include "viewer/window/commands.h"

using namespace tidemark;

TEST_CASE("nothing that hands and keys do at random ends the window", "[behaviour][viewer][long]") {
    const char* wish = std::getenv("TIDEMARK_SOAK_S");
    const double seconds = wish != nullptr ? std::atof(wish) : 20;
    tests::Window w(1100, 760);
    const std::filesystem::path plan = w.folder.path / "plan.toml";
    std::filesystem::copy_file(TIDEMARK_TESTS_DIR "/viewer/scripts/two-washes.toml", plan);
    grid::Picture grey{90, 60, std::vector<std::uint8_t>(90 * 60 * 3, 150)};
    const auto bytes = grid::png_bytes(grey);
    w.folder.file("reference.png", std::string(bytes.begin(), bytes.end()));
    std::mt19937 random(7);
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    const auto begun = std::chrono::steady_clock::now();
    long done = 0;
    w.app.open(plan);
    while (std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count() < seconds) {
        ++done;
        SDL_Event e{};
        switch (below(8)) {
        case 0: {
            const auto& c = viewer::commands()[static_cast<std::size_t>(below(static_cast<int>(viewer::commands().size())))];
            if (c.what != viewer::Do::close)
                w.key(c.code, c.held);
            break;
        }
        case 1:
            if (!w.app.controls().all().empty()) {
                const auto name = w.app.controls().all()[static_cast<std::size_t>(below(static_cast<int>(w.app.controls().all().size())))].name;
                if (name != "Save") // it would write where the test has no business
                    w.click(name);
            }
            break;
        case 2: w.key(below(2) == 0 ? SDLK_TAB : SDLK_RETURN); break;
        case 3:
            e.type = SDL_MOUSEWHEEL;
            e.wheel.y = below(7) - 3;
            w.app.on_event(e);
            break;
        case 4:
            e.type = below(2) == 0 ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP;
            e.button.button = SDL_BUTTON_LEFT;
            e.button.x = below(1100), e.button.y = below(760);
            w.app.on_event(e);
            break;
        case 5:
            if (below(40) == 0)
                w.app.resize(640 + below(900), 420 + below(600));
            break;
        default:
            e.type = SDL_MOUSEMOTION;
            e.motion.x = below(1100), e.motion.y = below(760);
            w.app.on_event(e);
        }
        w.frames(1);
        if (w.app.page() == viewer::Page::start && below(5) == 0)
            w.app.open(plan);
    }
    CHECK(done > 20);
    WARN(done << " events, page " << w.is("page"));
}
