/// A window that nobody sees, with settings of its own in a folder that goes when the test is over.
#pragma once
#include "support/temporary_folder.h"
#include "viewer/window/app.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace tidemark::tests {

/// A folder that goes when the test is over, with files to put into it.
struct OwnFolder {
    TemporaryFolder temporary;
    std::filesystem::path path = temporary.path();
    std::filesystem::path file(const std::string& name, const std::string& text) const {
        std::filesystem::create_directories((path / name).parent_path());
        std::ofstream(path / name) << text;
        return path / name;
    }
};

inline viewer::AppOptions hidden_options(const OwnFolder& folder, int width = 1000, int height = 700) {
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("TIDEMARK_PRESETS", TIDEMARK_PRESETS_DIR, 1);
    viewer::AppOptions options;
    options.width = width, options.height = height;
    options.hidden = true;
    options.memory.emplace(folder.path / "config", folder.path / "state");
    return options;
}

/// What a hand does, as events.
struct Window {
    OwnFolder folder;
    viewer::App app;
    explicit Window(int width = 1000, int height = 700, double ui_scale = 1)
        : app([&] {
              viewer::AppOptions o = hidden_options(folder, width, height);
              o.ui_scale = ui_scale;
              o.cell_mm = 2;
              return o;
          }()) {
        frames(3);
    }
    void frames(int n) {
        for (int k = 0; k < n; ++k) {
            SDL_Event e;
            while (SDL_PollEvent(&e) == 1)
                app.on_event(e);
            app.frame(0.02);
        }
    }
    void key(SDL_Keycode code, int held = 0) {
        SDL_Event e{};
        e.type = SDL_KEYDOWN;
        e.key.keysym.sym = code;
        e.key.keysym.scancode = SDL_GetScancodeFromKey(code);
        e.key.keysym.mod = static_cast<Uint16>(held);
        app.on_event(e);
        frames(1);
        e.type = SDL_KEYUP;
        e.key.keysym.mod = 0;
        app.on_event(e);
        frames(2);
    }
    void click(float x, float y) {
        SDL_Event e{};
        e.type = SDL_MOUSEMOTION;
        e.motion.x = static_cast<int>(x), e.motion.y = static_cast<int>(y);
        app.on_event(e);
        frames(2);
        e = {};
        e.type = SDL_MOUSEBUTTONDOWN;
        e.button.button = SDL_BUTTON_LEFT;
        e.button.x = static_cast<int>(x), e.button.y = static_cast<int>(y);
        app.on_event(e);
        frames(1);
        e.type = SDL_MOUSEBUTTONUP;
        app.on_event(e);
        frames(2);
    }
    bool click(const std::string& name) {
        const auto found = app.controls().find(name);
        if (!found || found->where.width() < 1)
            return false;
        click(found->where.middle_x(), found->where.middle_y());
        return true;
    }
    std::string is(const std::string& key) const {
        const auto state = app.state();
        const auto found = state.find(key);
        return found == state.end() ? "?" : found->second;
    }
};

} // namespace tidemark::tests
