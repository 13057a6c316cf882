#include "viewer/window/script.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <thread>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

using Clock = std::chrono::steady_clock;

constexpr int most_tabs = 300; ///< round a page

/// What this thread has had of a processor.
double thread_ms() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
}

} // namespace

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all.empty() ? 0 : all[all.size() / 2];
}

double worst(const std::vector<double>& all) { return all.empty() ? 0 : *std::max_element(all.begin(), all.end()); }

void Script::frames(App& app, int n) {
    static Clock::time_point before = Clock::now();
    for (int k = 0; k < n && !app.closing(); ++k) {
        const auto begun = Clock::now();
        const double cpu_before = thread_ms();
        SDL_Event e;
        while (SDL_PollEvent(&e) == 1)
            app.on_event(e);
        app.frame(std::chrono::duration<double>(begun - before).count());
        app.present();
        before = begun;
        times_.lines.push_back(line_);
        times_.own_ms.push_back(thread_ms() - cpu_before);
        times_.ms.push_back(std::chrono::duration<double, std::milli>(Clock::now() - begun).count());
    }
}

void Script::push(App& app, SDL_Event e) {
    SDL_PushEvent(&e);
    frames(app, 1);
}

void Script::move_to(App& app, float x, float y) {
    SDL_Event e{};
    e.type = SDL_MOUSEMOTION;
    const auto pixel = [](float at) { return static_cast<int>(std::lround(std::clamp(at, -1e6f, 1e6f))); };
    e.motion.x = pointer_x_ = pixel(x);
    e.motion.y = pointer_y_ = pixel(y);
    push(app, e);
    frames(app, 1);
}

void Script::button(App& app, bool down) {
    SDL_Event e{};
    e.type = down ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP;
    e.button.button = SDL_BUTTON_LEFT;
    e.button.clicks = 1;
    e.button.x = pointer_x_;
    e.button.y = pointer_y_;
    push(app, e);
}

void Script::key(App& app, const Line& line, const std::string& text) {
    Uint16 held = 0;
    std::string name = text;
    for (const auto& [word, mod] : {std::pair<const char*, Uint16>{"ctrl+", KMOD_LCTRL}, {"shift+", KMOD_LSHIFT}, {"alt+", KMOD_LALT}})
        for (std::string w = word; name.size() > w.size() && name.starts_with(w);) {
            held = static_cast<Uint16>(held | mod);
            name = name.substr(w.size());
        }
    const SDL_Keycode code = SDL_GetKeyFromName(name.c_str());
    if (code == SDLK_UNKNOWN)
        refuse(line, "unknown key \"" + name + "\"", "a key's name as SDL has it, after ctrl+, shift+ or alt+");
    SDL_Event e{};
    e.type = SDL_KEYDOWN;
    e.key.keysym.sym = code;
    e.key.keysym.scancode = SDL_GetScancodeFromKey(code);
    e.key.keysym.mod = held;
    push(app, e);
    e.type = SDL_KEYUP;
    e.key.keysym.mod = 0;
    push(app, e);
    frames(app, 1);
}

Rect Script::control(App& app, const Line& line, const std::string& name) {
    auto found = app.controls().find(name);
    const std::string whole = found ? found->name : "";
    for (int k = 0; k < most_tabs && found && found->where.width() < 1; ++k) {
        key(app, line, "tab");
        found = app.state()["focus"] == whole ? app.controls().find(whole) : found;
    }
    if (!found || found->where.width() < 1) {
        std::string all;
        for (const auto& one : app.controls().all())
            if (one.where.width() >= 1)
                all += (all.empty() ? "" : ", ") + one.name;
        refuse(line, "no control \"" + name + "\" in sight, or several", all);
    }
    return found->where;
}

void Script::drag(App& app, const Rect& r, float dx, float dy) {
    move_to(app, r.middle_x(), r.middle_y());
    const auto x = static_cast<float>(pointer_x_), y = static_cast<float>(pointer_y_);
    button(app, true);
    constexpr int steps = 8;
    for (int k = 1; k <= steps; ++k)
        move_to(app, x + dx * static_cast<float>(k) / steps, y + dy * static_cast<float>(k) / steps);
    button(app, false);
    frames(app, 2);
}

bool Script::holds(App& app, const std::string& key, const std::string& value) const {
    if (key == "control") {
        const auto found = app.controls().find(value);
        return found && found->where.width() >= 1;
    }
    const auto state = app.state();
    const auto found = state.find(key);
    return found != state.end() && found->second == value;
}

FrameTimes Script::run(App& app) {
    frames(app, 3);
    for (const Line& line : text_.lines()) {
        if (app.closing())
            refuse(line, "the window was closed before this line");
        line_ = line.number;
        follow(app, line, text_.filled(line, remembered_));
    }
    return times_;
}

} // namespace tidemark::viewer
