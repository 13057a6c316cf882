// What each word of a script does.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <sstream>
#include <thread>

#include "grid/files.h"
#include "grid/problem.h"
#include "viewer/window/script.h"

namespace tidemark::viewer {

namespace {

using Clock = std::chrono::steady_clock;

} // namespace

void Script::follow(App& app, const Line& line, std::string rest) {
    const auto numbers = [&](int n, const char* meaning) {
        const auto all = numbers_at_end(rest, n);
        if (static_cast<int>(all.size()) != n)
            refuse(line, fmt::format("\"{}\" is not {}", line.rest, meaning));
        return all;
    };
    const std::string& verb = line.verb;
    if (verb == "open") {
        std::istringstream words(rest);
        std::string path, reference;
        words >> path >> reference;
        app.open(path, reference);
        do
            frames(app, 2);
        while (app.desk().opening());
    } else if (verb == "size") {
        const auto n = numbers(2, "width and height in pixels");
        if (*std::min_element(n.begin(), n.end()) < 320 || *std::max_element(n.begin(), n.end()) > 8192)
            refuse(line, "\"" + line.rest + "\" is no size of a window", "320 to 8192 pixels each");
        app.resize(static_cast<int>(n[0]), static_cast<int>(n[1]));
        frames(app, 3);
    } else if (verb == "key") {
        key(app, line, rest);
    } else if (verb == "type") {
        for (const char c : rest) { // a letter at a time, as a keyboard does
            SDL_Event e{};
            e.type = SDL_TEXTINPUT;
            e.text.text[0] = c;
            push(app, e);
        }
    } else if (verb == "click") {
        const Rect r = control(app, line, rest);
        move_to(app, r.middle_x(), r.middle_y());
        button(app, true);
        button(app, false);
        frames(app, 2);
    } else if (verb == "point") {
        const auto n = numbers(2, "a place in millimetres from the top left of the sheet");
        float x = 0, y = 0;
        app.view().px({n[0], n[1]}, app.view().pane(), x, y);
        move_to(app, x, y);
        frames(app, 2);
    } else if (verb == "press") {
        button(app, true);
        button(app, false);
        frames(app, 2);
    } else if (verb == "drag") {
        const auto n = numbers(2, "a control's name and two numbers of pixels");
        drag(app, control(app, line, rest), static_cast<float>(n[0]), static_cast<float>(n[1]));
    } else if (verb == "drag-minutes") {
        const auto n = numbers(1, "a control's name and a number of minutes");
        const Rect axis = control(app, line, "minute line");
        drag(app, control(app, line, rest), static_cast<float>(60 * n[0] / app.desk().strip().end_s) * axis.width(), 0);
    } else if (verb == "turn") {
        const auto n = numbers(1, "a slider's name and a share, 0 to 1");
        const Rect r = control(app, line, rest);
        const float knob = r.height() / 2;
        drag(app, r, r.x0 + knob + static_cast<float>(n[0]) * (r.width() - 2 * knob) - r.middle_x(), 0);
    } else if (verb == "wheel") {
        const auto n = numbers(1, "a number of turns");
        SDL_Event e{};
        e.type = SDL_MOUSEWHEEL;
        e.wheel.y = static_cast<int>(n[0]);
        push(app, e);
        frames(app, 2);
    } else if (verb == "wait" || verb == "wait-for") {
        const auto gap = rest.find(' ');
        std::string first = rest.substr(0, gap);
        char* end = nullptr;
        const double seconds = std::strtod(first.c_str(), &end);
        if (first.empty() || *end != 0 || !(seconds >= 0 && seconds <= 3600))
            refuse(line, "\"" + first + "\" is no number of seconds", "0 to 3600");
        const std::string wanted = gap == std::string::npos ? "" : rest.substr(gap + 1);
        const auto until = Clock::now() + std::chrono::duration<double>(seconds);
        for (;;) {
            frames(app, 1);
            if (verb == "wait-for") {
                const auto [k, value] = key_value(app.state(), wanted);
                if (!k.empty() && holds(app, k, value))
                    break;
            }
            if (Clock::now() >= until) {
                if (verb == "wait")
                    break;
                const auto state = app.state();
                const auto [k, value] = key_value(state, wanted);
                throw NotAsExpected(fmt::format("{}: waited {} s for {}; it is {}", text_.where(line), seconds,
                                                wanted, state.contains(k) ? state.at(k) : "not there"));
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(4));
        }
        frames(app, 2);
    } else if (verb == "expect" || verb == "expect-not") {
        const auto state = app.state();
        const auto [k, value] = key_value(state, rest);
        if (k.empty()) {
            std::string all;
            for (const auto& [name, unused] : state)
                all += (all.empty() ? "" : ", ") + name;
            refuse(line, "\"" + rest + "\" begins with nothing that is known of the window", all);
        }
        if (holds(app, k, value) != (verb == "expect"))
            throw NotAsExpected(fmt::format("{}: {} {}; {} is {}", text_.where(line), verb, rest, k,
                                            state.contains(k) ? state.at(k) : "not in sight"));
    } else if (verb == "remember") {
        const auto gap = rest.find(' ');
        const auto state = app.state();
        if (gap == std::string::npos || !state.contains(rest.substr(gap + 1)))
            refuse(line, "remember WORD KEY, and KEY must be known of the window");
        remembered_[rest.substr(0, gap)] = state.at(rest.substr(gap + 1));
    } else if (verb == "print") {
        for (const auto& [k, value] : app.state())
            if (rest == "all" || rest == k)
                std::printf("%s: %s\n", k.c_str(), value.c_str());
        std::fflush(stdout);
    } else if (verb == "screenshot") {
        const std::filesystem::path file = rest;
        if (file.extension() != ".png")
            refuse(line, rest + " is no PNG file's name", "a name that ends in .png");
        frames(app, 2);
        app.frame(0.001);
        grid::OutputFolder folder(file.has_parent_path() ? file.parent_path() : ".");
        folder.write(file.filename().string(), grid::png_bytes(app.seen()));
        folder.commit();
    }
}

} // namespace tidemark::viewer
