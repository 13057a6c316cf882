#include "viewer/window/mark.h"

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

void Mark::move(SheetView& view, int dx, int dy) {
    if (!at_)
        return;
    const Rect& pane = view.pane();
    const double step_mm = pane.width() / view.px_per_mm() / 100;
    at_->x = std::clamp(at_->x + dx * step_mm, 0.0, view.width_mm());
    at_->y = std::clamp(at_->y + dy * step_mm, 0.0, view.height_mm());
    float x = 0, y = 0;
    view.px(*at_, pane, x, y);
    const float border = 0.08F * std::min(pane.width(), pane.height());
    const float over_x = x < pane.x0 + border ? x - pane.x0 - border : x > pane.x1 - border ? x - pane.x1 + border : 0;
    const float over_y = y < pane.y0 + border ? y - pane.y0 - border : y > pane.y1 - border ? y - pane.y1 + border : 0;
    if (!view.fitted() && (over_x != 0 || over_y != 0))
        view.pan(-over_x, -over_y);
}

void Mark::draw(Ui& ui, const SheetView& view) const {
    if (!at_)
        return;
    float x = 0, y = 0;
    view.px(*at_, view.pane(), x, y);
    x = std::round(x), y = std::round(y);
    // Dark on a light ground of its own, so that it stands on any value; open in the middle, where one looks.
    const float far = std::round(0.9F * ui.em), near = std::round(0.3F * ui.em), thick = std::max(1.0F, std::round(0.07F * ui.em));
    const auto arms = [&](float by, Colour c) {
        fill(ui, {x - far - by, y - thick - by, x - near + by, y + thick + by}, c);
        fill(ui, {x + near - by, y - thick - by, x + far + by, y + thick + by}, c);
        fill(ui, {x - thick - by, y - far - by, x + thick + by, y - near + by}, c);
        fill(ui, {x - thick - by, y + near - by, x + thick + by, y + far + by}, c);
    };
    arms(std::max(1.0F, thick), rgb(0xFFFFFF));
    arms(0, rgb(0x141414));
}

} // namespace tidemark::viewer
