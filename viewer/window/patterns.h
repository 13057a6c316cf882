/// The stages of drying as patterns: wet a solid tone, moist hatched, damp dotted, dry a thin foot. They read without
/// colour. One texture for a height of ribbon and a theme, from which ribbons are copied.
#pragma once
#include "viewer/window/canvas.h"
#include "viewer/window/ui.h"

namespace tidemark::viewer {

class Patterns {
  public:
    void make(SDL_Renderer*, const Theme&, int height); ///< again only when one of them is another
    /// stage 0 ... 3: sheet::CellStage. Whole pixels of the window.
    void draw(Ui&, const Rect&, int stage) const;

  private:
    Shown shown_;
    int height_ = 0;
    bool dark_ = false;
};

} // namespace tidemark::viewer
