/// Pictures to look at: the sheet of a finished run, and its reference beside it, at one zoom.
#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "grid/picture.h"
#include "viewer/window/canvas.h"
#include "viewer/window/ui.h"

namespace tidemark::viewer {

/// FOLDER/sheet.png for a folder that rehearse wrote, else the path itself. Errors: BadInput when nothing is there.
std::filesystem::path sheet_file(const std::filesystem::path&);

/// Every pixel as the grey of its own lightness L*.
grid::Picture greys_of(grid::Picture);

class TwoPictures {
  public:
    void open(std::vector<grid::Picture>); ///< one or two; the first is the sheet
    void draw(Ui&, SDL_Renderer*, const Rect&);
    bool greys = false;
    SheetView view;
    bool wants_to_leave = false;

  private:
    std::vector<grid::Picture> pictures_;
    std::vector<Pixels> pixels_;
    Canvas canvas_;
    Shown shown_;
    struct Key {
        float w = 0, h = 0;
        double zoom = 0, x = 0, y = 0;
        bool greys = false;
        int edition = 0;
        bool operator==(const Key&) const = default;
    } drawn_;
    int edition_ = 0;
    bool greys_made_ = false;
    void make_pixels();
};

} // namespace tidemark::viewer
