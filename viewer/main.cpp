/// tidemark-viewer [PLAN | PICTURE | FOLDER] [REFERENCE].
///
/// Exit codes as tidemark's: 0 done, 2 wrong input, 3 no window or no place to write; 1 when a script does not see what it
/// expects.
#include <CLI/CLI.hpp>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <system_error>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "grid/steady.h"
#include "plan/files_from.h"
#include "viewer/window/app.h"
#include "viewer/window/script.h"

TIDEMARK_CALM_THREADS

namespace {

using namespace tidemark;
using Clock = std::chrono::steady_clock;

struct Wishes {
    std::string path, reference, screenshot, script;
    std::vector<int> size;
    double ui_scale = 0, cell_mm = 0;
    bool only_draft = false, frame_times = false, tell = false, outside = false;
};

void write_screenshot(viewer::App& app, const std::filesystem::path& file) {
    if (file.extension() != ".png")
        throw grid::BadInput("--screenshot", file.string() + " is no PNG file's name", "a name that ends in .png");
    for (int k = 0; k < 3; ++k)
        app.frame(0.02);
    grid::OutputFolder folder(file.has_parent_path() ? file.parent_path() : ".");
    folder.write(file.filename().string(), grid::png_bytes(app.seen()));
    folder.commit();
}

/// Without a screen SDL may open a window that nobody can see or close.
void refuse_without_screen() {
    const std::string driver = SDL_GetCurrentVideoDriver();
    if (driver == "dummy" || driver == "offscreen" || driver == "evdev")
        throw grid::IoError("the window: no screen here; --script FILE and --screenshot FILE.png need none");
}

void print(const viewer::FrameTimes& times) {
    std::printf("frames: %zu; ms by the clock: median %.1f, worst %.1f; of a processor: median %.1f, worst %.1f\n",
                times.ms.size(), viewer::median(times.ms), viewer::worst(times.ms), viewer::median(times.own_ms),
                viewer::worst(times.own_ms));
    // Those that took longer than a hand should notice, by either measure.
    for (std::size_t k = 0; k < times.ms.size(); ++k)
        if (times.ms[k] > 33 || times.own_ms[k] > 33)
            std::printf("  frame %zu, line %d: %.1f ms, %.1f of a processor\n", k, times.lines[k], times.ms[k], times.own_ms[k]);
}

/// What has become another in the window's state, a line each: for those who watch from outside.
class Telling {
  public:
    void tell(const viewer::App& app) {
        auto now = app.state();
        for (const auto& [key, value] : now)
            if (const auto was = told_.find(key); was == told_.end() || was->second != value)
                std::printf("%s: %s\n", key.c_str(), value.c_str());
        std::fflush(stdout);
        told_ = std::move(now);
    }

  private:
    std::map<std::string, std::string> told_;
};

/// Draws for events and news, and while something moves; sleeps otherwise.
void live(viewer::App& app, bool tell) {
    auto before = Clock::now();
    Telling telling;
    while (!app.closing()) {
        SDL_Event e;
        const bool restless = app.restless();
        if (restless ? SDL_WaitEventTimeout(&e, 8) : SDL_WaitEventTimeout(&e, 1000)) {
            do {
                app.on_event(e);
            } while (SDL_PollEvent(&e) == 1);
        } else if (!restless && !app.due())
            continue;
        const auto now = Clock::now();
        app.frame(std::min(0.25, std::chrono::duration<double>(now - before).count()));
        app.present();
        if (tell)
            telling.tell(app);
        before = now;
    }
}

void run(const Wishes& w) {
    const bool hidden = !w.screenshot.empty() || !w.script.empty();
    if (hidden)
        setenv("SDL_VIDEODRIVER", "dummy", 0); // neither needs a screen
    std::optional<viewer::Script> script;
    if (!w.script.empty())
        script.emplace(w.script);
    viewer::AppOptions options;
    options.hidden = hidden;
    options.ui_scale = w.ui_scale;
    options.cell_mm = w.cell_mm;
    options.only_draft = w.only_draft;
    options.from = w.outside ? plan::FilesFrom::anywhere : plan::FilesFrom::folder;
    if (w.size.size() == 2)
        options.width = w.size[0], options.height = w.size[1];
    else if (hidden)
        options.width = 1280, options.height = 800;
    viewer::App app(options);
    if (!hidden)
        refuse_without_screen();
    if (!w.path.empty())
        app.open(w.path, w.reference);
    if (script) {
        const viewer::FrameTimes times = script->run(app);
        if (w.frame_times)
            print(times);
    } else if (hidden)
        write_screenshot(app, w.screenshot);
    else
        live(app, w.tell);
}

} // namespace

int main(int argc, char** argv) {
    grid::stand_firm();
    CLI::App options{"tidemark-viewer rehearses a plan in a window; without arguments it shows what there is to open. "
                     "F1 lists its keys."};
    Wishes w;
    options.add_option("PATH", w.path, "a plan, a lesson's folder, the folder of a finished run, or a picture");
    options.add_option("REFERENCE", w.reference, "a picture to show beside the picture or finished run");
    options.add_option("--size", w.size, "width and height of the window")->expected(2)->check(CLI::Range(320, 8192));
    options.add_option("--ui-scale", w.ui_scale, "pixels a unit of design: 1, 1.5, 2; from the screen when not given")
        ->check(CLI::Range(0.5, 4.0));
    options.add_option("--cell", w.cell_mm, "fineness of the fine sheet in mm")->check(CLI::Range(0.1, 4.0));
    options.add_flag("--draft", w.only_draft, "coarse cells only");
    options.add_flag(plan::outside_option, w.outside, "masks and pictures may lie outside a plan's folder");
    options.add_option("--script", w.script, "follow this script without a screen, and exit");
    options.add_flag("--frame-times", w.frame_times, "with --script: print what frames took");
    options.add_flag("--tell", w.tell, "print what changes in the window's state, a line each");
    options.add_option("--screenshot", w.screenshot, "write what the window shows to this PNG file, and exit");
    try {
        options.parse(argc, argv);
        run(w);
        grid::check_said();
        return 0;
    } catch (const CLI::ParseError& e) {
        return options.exit(e) == 0 ? 0 : 2;
    } catch (const viewer::NotAsExpected& e) {
        std::fprintf(stderr, "%s\n", e.what());
        grid::mean_one();
        return 1;
    } catch (const grid::BadInput& e) {
        for (const grid::Problem& p : e.problems())
            std::fprintf(stderr, "%s\n", p.line().c_str());
        return 2;
    } catch (const std::bad_alloc&) {
        std::fprintf(stderr, "out of memory\n");
        return 3;
    } catch (const std::system_error& e) {
        const bool no_thread = e.code() == std::errc::resource_unavailable_try_again;
        std::fprintf(stderr, "%s\n", no_thread ? "out of memory: no thread can be had" : e.what());
        return 3;
    } catch (const std::exception& e) {
        std::fprintf(stderr, "%s\n", e.what());
        return 3;
    }
}
