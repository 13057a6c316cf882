#include "viewer/window/column.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

Column::Column(Ui& ui, const Rect& r, Scroll& scroll) : ui_(ui), r_(r), scroll_(scroll) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseWheel != 0 && r.holds(io.MousePos.x, io.MousePos.y))
        scroll_.at -= std::round(3 * ui.em * io.MouseWheel);
    scroll_.at = std::max(0.0F, scroll_.at);
    const float by = 0.5F * ui.em; // what reaches a little beyond: rings, underlines
    ImGui::PushClipRect(ImVec2(r.x0 - by, r.y0 - 0.3F * ui.em), ImVec2(r.x1 + by, r.y1), true);
    ui.in_column = true;
    ui.focus_at.reset();
}

void Column::end(float y) {
    ui_.in_column = false;
    ImGui::PopClipRect();
    const float tall = y - top();
    if (ui_.focus_at && scroll_.focus != ui_.focus) { // the keyboard has come to another place
        const float above = r_.y0 + ui_.em - ui_.focus_at->y0, below = ui_.focus_at->y1 + ui_.em - r_.y1;
        if (above > 0)
            scroll_.at -= above;
        else if (below > 0)
            scroll_.at += below;
        scroll_.focus = ui_.focus;
    }
    if (!ui_.focus_at)
        scroll_.focus.clear();
    scroll_.at = std::round(std::clamp(scroll_.at, 0.0F, std::max(0.0F, tall - r_.height())));
    if (tall <= r_.height())
        return;
    const float share = r_.height() / tall, at = scroll_.at / tall, x = r_.x1 + std::round(0.75F * ui_.em);
    fill(ui_, {x, r_.y0 + at * r_.height(), x + 3, r_.y0 + (at + share) * r_.height()}, ui_.theme.rule);
}

} // namespace tidemark::viewer
