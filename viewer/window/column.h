/// A column of things that may be taller than its place: the wheel moves it, and what the Tab key comes to is brought into
/// sight.
///
///   Column column(ui, rect, scroll);
///   float y = column.top(); ... draw from there down ...
///   column.end(y);
#pragma once
#include <string>

#include "viewer/window/ui.h"

namespace tidemark::viewer {

struct Scroll {
    float at = 0;      ///< pixels that are above
    std::string focus; ///< where the keyboard was when it was last drawn
};

class Column {
  public:
    Column(Ui&, const Rect&, Scroll&);
    float top() const { return r_.y0 - scroll_.at; }
    void end(float y); ///< below all that was drawn

  private:
    Ui& ui_;
    Rect r_;
    Scroll& scroll_;
};

} // namespace tidemark::viewer
