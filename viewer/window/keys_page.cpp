#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "viewer/window/commands.h"
#include "viewer/window/keys_page.h"

namespace tidemark::viewer {

void draw_keys(Ui& ui, const Rect& all, float& scroll) {
    const float em = ui.em, left = std::round(all.x0 + 2.5F * em), keys = 7.2F * em;
    fill(ui, all, ui.theme.ground);
    write(ui, left, all.y0 + 1.4F * em, ui.theme.ink, "Keys", ui.title);
    // As many columns as are wide enough; what is too long for them is scrolled.
    const char* const last = "Tab goes from one thing to the next, Enter presses it, up and down turn a value or this page · Esc goes back";
    const float room = all.width() - 5 * em, foot = wrapped_height(ui, room, last, ui.small);
    const float top = all.y0 + 4 * em, end = all.y1 - foot - 2.1F * em;
    const int columns = std::clamp(static_cast<int>((all.width() - 4 * em) / (26 * em)), 1, 3);
    const float width = (all.width() - 4 * em) / static_cast<float>(columns);
    float lines = 0;
    const char* group = "";
    for (const Command& c : commands())
        if (c.words != nullptr) {
            lines += std::strcmp(group, c.group) != 0 ? 2.5F : 1;
            group = c.group;
        }
    // Lines a little closer rather than a few of them out of sight.
    const float a_column = std::ceil(lines / static_cast<float>(columns) + 1.5F);
    const float line = std::clamp((end - top) / a_column, 1.28F * em, 1.45F * em);
    const float tall = std::max(a_column * line, end - top);
    scroll -= 3 * em * ImGui::GetIO().MouseWheel + static_cast<float>(ui.nudge) * 2 * line;
    scroll = std::clamp(scroll, 0.0F, std::max(0.0F, tall + top - end));
    ImGui::PushClipRect(ImVec2(all.x0, top - 0.5F * em), ImVec2(all.x1, end), true);
    float x = left, y = top - scroll;
    group = "";
    for (const Command& c : commands()) {
        if (c.words == nullptr)
            continue;
        const bool heading = std::strcmp(group, c.group) != 0;
        if (y + scroll + (heading ? 3.4F * line : line) > top + tall) { // a heading takes two lines with it
            x += width;
            y = top - scroll;
        }
        if (heading) {
            group = c.group;
            y += y > top - scroll ? 0.5F * line : 0;
            write(ui, x, y, ui.theme.accent, group, ui.strong);
            y += line;
        }
        write(ui, x, y, ui.theme.ink, c.key, ui.strong);
        write_within(ui, x + keys, y, width - keys - em, ui.theme.quiet, c.words);
        y += line;
    }
    ImGui::PopClipRect();
    write_wrapped(ui, left, all.y1 - foot - 1.2F * em, room, ui.theme.quiet, last, ui.small);
}

} // namespace tidemark::viewer
