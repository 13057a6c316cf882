/// Pixels that are drawn here and shown as one texture: the sheet at its zoom, lines over it, what is hatched.
///
/// A software renderer turns lines into dots and stretches pictures slowly; so the sheet's pane is made here, pixel by
/// pixel, once for each change, and put on the screen as it is.
#pragma once
#include <SDL.h>

#include <cstdint>
#include <vector>

#include "viewer/window/joint.h"
#include "viewer/window/sheet_view.h"
#include "viewer/window/theme.h"
#include "viewer/studio/looks.h"

namespace tidemark::viewer {

struct Canvas {
    int width = 0, height = 0;
    std::vector<Colour> px; ///< red in the lowest byte, alpha in the highest
    void size(int w, int h, Colour);
    void blend(int x, int y, Colour, float share); ///< beyond the border: nothing
};

/// What was drawn on a canvas that began without any colour (0), over another of the same size: lines are drawn once and
/// laid over every picture of the sheet.
void lay_over(Canvas& below, const Canvas&);

/// The sheet as `view` has it in `pane`, drawn where pane lies on a canvas that shows `area` of the window; only columns
/// from x0 to x1 of the window. Linear between cells; the mean of them where they are smaller than pixels.
void draw_sheet(Canvas&, const Rect& area, const SheetView& view, const Rect& pane, const Pixels&, float x0, float x1);

/// A stroke of a pen `width` pixels wide through points, in `dash` on, `gap` off (pixels; 0: all on).
struct Pen {
    Colour colour = 0xFF000000;
    float width = 2, dash = 0, gap = 0;
    float share = 1; ///< how much it covers what is below
};
struct Dot {
    float x = 0, y = 0;
};
void stroke(Canvas&, const std::vector<Dot>&, const Pen&);

/// A texture as large as its last canvas.
class Shown {
  public:
    void take(SDL_Renderer*, const Canvas&); ///< Errors: IoError
    SDL_Texture* texture() const { return texture_.get(); }
    int width() const { return width_; }
    int height() const { return height_; }
    void forget() { texture_.reset(), width_ = height_ = 0; }

  private:
    Texture texture_{nullptr, SDL_DestroyTexture};
    int width_ = 0, height_ = 0;
};

} // namespace tidemark::viewer
