#include "viewer/window/script.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <sstream>
#include <ctime>
#include <thread>

#include "grid/files.h"
#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

using Clock = std::chrono::steady_clock;

std::string trimmed(const std::string& s) {
    const auto a = s.find_first_not_of(" \t\r"), b = s.find_last_not_of(" \t\r");
    return a == std::string::npos ? "" : s.substr(a, b - a + 1);
}

constexpr int most_tabs = 300; ///< round a page

/// What this thread has had of a processor.
double thread_ms() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
}

const char* const verbs = "open, size, key, type, click, point, press, drag, drag-minutes, turn, wheel, wait, wait-for, expect, "
                          "expect-not, remember, print or screenshot";

} // namespace

double median(std::vector<double> all) {
    std::sort(all.begin(), all.end());
    return all.empty() ? 0 : all[all.size() / 2];
}

double worst(const std::vector<double>& all) { return all.empty() ? 0 : *std::max_element(all.begin(), all.end()); }

Script::Script(const std::filesystem::path& file) : file_(file) {
    std::istringstream in(grid::read_text(file));
    int n = 0;
    for (std::string text; std::getline(in, text);) {
        ++n;
        text = trimmed(text);
        if (text.empty() || text.front() == '#')
            continue;
        const auto gap = text.find_first_of(" \t");
        Line line{n, text.substr(0, gap), gap == std::string::npos ? "" : trimmed(text.substr(gap))};
        if (std::string(verbs).find(line.verb + ",") == std::string::npos && line.verb != "print" &&
            line.verb != "screenshot")
            refuse(line, "unknown word \"" + line.verb + "\"", verbs);
        lines_.push_back(std::move(line));
    }
}

void Script::refuse(const Line& line, const std::string& what, const std::string& allowed) const {
    throw grid::BadInput(fmt::format("{}:{}", file_.string(), line.number), what, allowed);
}

std::string Script::filled(const Line& line) const {
    std::string s = line.rest;
    for (auto at = s.find("${"); at != std::string::npos; at = s.find("${", at)) {
        const auto end = s.find('}', at);
        if (end == std::string::npos)
            refuse(line, "${ without }");
        const std::string name = s.substr(at + 2, end - at - 2);
        std::string value;
        if (const auto found = remembered_.find(name); found != remembered_.end())
            value = found->second;
        else if (const char* set = std::getenv(name.c_str()))
            value = set;
        else
            refuse(line, "nothing was remembered as " + name + ", and the environment has none");
        s.replace(at, end - at + 1, value);
        at += value.size();
    }
    return s;
}

void Script::frames(App& app, int n) {
    static Clock::time_point before = Clock::now();
    for (int k = 0; k < n && !app.closing(); ++k) {
        SDL_Event e;
        while (SDL_PollEvent(&e) == 1)
            app.on_event(e);
        const auto begun = Clock::now();
        const double cpu_before = thread_ms();
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
    e.motion.x = pointer_x_ = static_cast<int>(std::lround(x));
    e.motion.y = pointer_y_ = static_cast<int>(std::lround(y));
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
    for (const Line& line : lines_) {
        if (app.closing())
            refuse(line, "the window was closed before this line");
        line_ = line.number;
        follow(app, line, filled(line));
    }
    return times_;
}

} // namespace tidemark::viewer
