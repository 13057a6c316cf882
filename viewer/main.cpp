/// tidemark-viewer SHEET.png|FOLDER [REFERENCE]: Esc or q closes, g shows greys only.
///
/// Exit codes as tidemark's: 0 done, 2 wrong input, 3 no window or no place to write.
#include <CLI/CLI.hpp>

#include <cstdio>
#include <cstdlib>

#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "viewer/app.h"

TIDEMARK_CALM_THREADS

namespace {

using namespace tidemark;

struct Wishes {
    std::string sheet, reference, screenshot;
};

void write_screenshot(viewer::App& app, const std::filesystem::path& file) {
    if (file.extension() != ".png")
        throw grid::BadInput("--screenshot", file.string() + " is no PNG file's name", "a name that ends in .png");
    grid::OutputFolder folder(file.has_parent_path() ? file.parent_path() : ".");
    folder.write(file.filename().string(), grid::png_bytes(app.seen()));
    folder.commit();
}

/// Without a screen SDL may open a window that nobody can see or close.
void refuse_without_screen() {
    const std::string driver = SDL_GetCurrentVideoDriver();
    if (driver == "dummy" || driver == "offscreen" || driver == "evdev")
        throw grid::IoError("the window: no screen here; --screenshot FILE.png writes what it would show");
}

void run(const Wishes& wishes) {
    std::vector<grid::Picture> pictures{grid::read_picture(viewer::sheet_file(wishes.sheet))};
    if (!wishes.reference.empty())
        pictures.push_back(grid::read_picture(wishes.reference));
    const bool hidden = !wishes.screenshot.empty();
    if (hidden)
        setenv("SDL_VIDEODRIVER", "dummy", 0); // a picture of the window needs no screen
    viewer::App app(std::move(pictures), wishes.reference.empty() ? 900 : 1400, 720, hidden);
    if (hidden)
        return write_screenshot(app, wishes.screenshot);
    refuse_without_screen();
    app.show();
    for (SDL_Event event; SDL_WaitEvent(&event) == 1 && app.on_event(event);) {
    }
}

} // namespace

int main(int argc, char** argv) {
    CLI::App options{"tidemark-viewer shows a sheet beside its reference. Esc or q closes, g shows greys only."};
    Wishes wishes;
    options.add_option("SHEET", wishes.sheet, "a picture, or a folder with sheet.png")->required();
    options.add_option("REFERENCE", wishes.reference, "a picture to show beside it");
    options.add_option("--screenshot", wishes.screenshot, "write what the window shows to this PNG file, and exit");
    try {
        options.parse(argc, argv);
        run(wishes);
        return 0;
    } catch (const CLI::ParseError& e) {
        return options.exit(e) == 0 ? 0 : 2;
    } catch (const grid::BadInput& e) {
        for (const grid::Problem& p : e.problems())
            std::fprintf(stderr, "%s\n", p.line().c_str());
        return 2;
    } catch (const std::exception& e) {
        std::fprintf(stderr, "%s\n", e.what());
        return 3;
    }
}
