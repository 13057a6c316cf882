#include "viewer/window/sheet_view.h"

#include <algorithm>

namespace tidemark::viewer {

namespace {

constexpr double margin = 0.94;                  ///< of the pane that a fitted sheet fills
constexpr double least_px_mm = 0.2, most_px_mm = 80; ///< a hand's breadth to a millimetre as wide as a thumb

} // namespace

void SheetView::of_sheet(double width_mm, double height_mm) {
    if (width_mm == width_mm_ && height_mm == height_mm_)
        return;
    width_mm_ = width_mm, height_mm_ = height_mm;
    fit();
}

void SheetView::place(const Rect& pane) {
    pane_ = pane;
    if (!fitted_)
        return hold_in_sight();
    middle_ = {width_mm_ / 2, height_mm_ / 2};
    px_per_mm_ = std::max(least_px_mm, margin * std::min(pane.width() / width_mm_, pane.height() / height_mm_));
}

void SheetView::hold_in_sight() {
    middle_.x = std::clamp(middle_.x, 0.0, width_mm_);
    middle_.y = std::clamp(middle_.y, 0.0, height_mm_);
}

void SheetView::zoom(double factor, float x, float y) {
    const Spot_mm held = mm(x, y, pane_);
    px_per_mm_ = std::clamp(px_per_mm_ * factor, least_px_mm, most_px_mm);
    fitted_ = false;
    const Spot_mm now = mm(x, y, pane_);
    middle_ = {middle_.x + held.x - now.x, middle_.y + held.y - now.y};
    hold_in_sight();
}

void SheetView::zoom_to(double px_per_mm) {
    fitted_ = false;
    px_per_mm_ = std::clamp(px_per_mm, least_px_mm, most_px_mm);
}

void SheetView::look_at(Spot_mm middle, double width_mm) {
    middle_ = middle;
    zoom_to(pane_.width() / std::max(width_mm, 1.0));
    hold_in_sight();
}

void SheetView::pan(float dx, float dy) {
    fitted_ = false;
    middle_ = {middle_.x - dx / px_per_mm_, middle_.y - dy / px_per_mm_};
    hold_in_sight();
}

Spot_mm SheetView::mm(float x, float y, const Rect& pane) const {
    return {middle_.x + (x - pane.middle_x()) / px_per_mm_, middle_.y + (y - pane.middle_y()) / px_per_mm_};
}

void SheetView::px(Spot_mm spot, const Rect& pane, float& x, float& y) const {
    x = static_cast<float>(pane.middle_x() + (spot.x - middle_.x) * px_per_mm_);
    y = static_cast<float>(pane.middle_y() + (spot.y - middle_.y) * px_per_mm_);
}

} // namespace tidemark::viewer
