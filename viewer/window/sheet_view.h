/// Where the sheet lies in its pane: zoom and pan, with sheet millimetres at one side and pixels at the other.
///
/// Two panes that show the same sheet share one view: what is in the middle of one is in the middle of the other.
#pragma once
#include "viewer/window/controls.h"

namespace tidemark::viewer {

struct Spot_mm {
    double x = 0, y = 0;
};

class SheetView {
  public:
    void of_sheet(double width_mm, double height_mm); ///< a new sheet: fitted again
    void place(const Rect& pane);                     ///< each frame; keeps the middle
    void fit() { fitted_ = true, place(pane_); }      ///< the whole sheet with a margin, and so when the pane changes
    void zoom(double factor, float x, float y);       ///< what is at that pixel stays there
    void zoom_to(double px_per_mm);                   ///< about the middle
    void look_at(Spot_mm middle, double width_mm);    ///< that much of the sheet across the pane
    void pan(float dx, float dy);                     ///< pixels
    double px_per_mm() const { return px_per_mm_; }
    double width_mm() const { return width_mm_; }
    double height_mm() const { return height_mm_; }
    Spot_mm middle() const { return middle_; }
    const Rect& pane() const { return pane_; }
    bool fitted() const { return fitted_; }
    Spot_mm mm(float x, float y, const Rect& pane) const;
    void px(Spot_mm, const Rect& pane, float& x, float& y) const;

  private:
    double width_mm_ = 100, height_mm_ = 100, px_per_mm_ = 1;
    Spot_mm middle_{50, 50};
    Rect pane_{};
    bool fitted_ = true;
    void hold_in_sight();
};

} // namespace tidemark::viewer
