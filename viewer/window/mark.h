/// A mark on the sheet that the arrow keys move, for those who work without a mouse: what it stands on is what the pointer
/// would be at.
#pragma once
#include <optional>

#include "viewer/window/sheet_view.h"
#include "viewer/window/ui.h"

namespace tidemark::viewer {

class Mark {
  public:
    bool on() const { return at_.has_value(); }
    const std::optional<Spot_mm>& at() const { return at_; }
    void put(Spot_mm s) { at_ = s; }
    void take_off() { at_.reset(); }
    void turn(const SheetView& view) { at_ ? take_off() : put(view.middle()); } ///< on, in the middle of what is seen, or off
    /// By hundredths of what is seen, so that it goes finely when one is close; within the sheet, and the sheet goes along.
    void move(SheetView&, int dx, int dy);
    void draw(Ui&, const SheetView&) const;

  private:
    std::optional<Spot_mm> at_;
};

} // namespace tidemark::viewer
