/// A window with a sheet, and its reference beside it, on a light neutral ground.
///
/// Pictures fill their half of the window without changing their proportions: the mean of what a pixel covers when
/// they shrink, linear between pixels when they grow. Drawn by SDL's software renderer, so that it shows the same
/// anywhere, and without a screen (SDL_VIDEODRIVER=dummy). Errors: IoError when SDL can't open a window.
#pragma once
#include <SDL.h>

#include <filesystem>
#include <memory>
#include <vector>

#include "grid/picture.h"

namespace tidemark::viewer {

constexpr std::uint8_t ground = 232; ///< grey of the window, sRGB

/// FOLDER/sheet.png for a folder that rehearse wrote, else the path itself. Errors: BadInput when nothing is there.
std::filesystem::path sheet_file(const std::filesystem::path&);

/// Where pictures of these sizes go in a window: side by side, each in the middle of its share of the width.
std::vector<SDL_Rect> places(const std::vector<SDL_Point>& sizes, int width, int height);

/// Every pixel as the grey of its own lightness L*.
grid::Picture greys_of(grid::Picture);

class App {
  public:
    /// One or two pictures; the first is the sheet.
    App(std::vector<grid::Picture> pictures, int width, int height, bool hidden = false);
    App(const App&) = delete;
    App& operator=(const App&) = delete;
    bool on_event(const SDL_Event&); ///< draws what it asks for; false: close the window
    void show();                     ///< draws and presents
    grid::Picture seen();            ///< draws, and gives what would be presented

  private:
    struct Video {
        Video();
        ~Video() { SDL_QuitSubSystem(SDL_INIT_VIDEO); }
    };
    std::vector<grid::Picture> pictures_;
    Video video_;
    std::unique_ptr<SDL_Window, decltype(&SDL_DestroyWindow)> window_;
    std::unique_ptr<SDL_Renderer, decltype(&SDL_DestroyRenderer)> renderer_;
    bool greys_ = false;
    SDL_Point size() const;
    void draw();
};

} // namespace tidemark::viewer
