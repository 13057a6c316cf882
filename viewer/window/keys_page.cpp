#include <cmath>
#include <cstring>

#include "viewer/window/commands.h"
#include "viewer/window/keys_page.h"

namespace tidemark::viewer {

void draw_keys(Ui& ui, const Rect& all) {
    const float em = ui.em, left = std::round(all.x0 + 2.5F * em), keys = 7.2F * em;
    fill(ui, all, ui.theme.ground);
    write(ui, left, all.y0 + 1.4F * em, ui.theme.ink, "Keys", ui.title);
    const float line = 1.45F * em, top = all.y0 + 4 * em, width = (all.width() - 4 * em) / (all.width() > 90 * em ? 3 : 2);
    float x = left, y = top;
    const char* group = "";
    for (const Command& c : commands()) {
        if (c.words == nullptr)
            continue;
        const bool heading = std::strcmp(group, c.group) != 0;
        if (y + (heading ? 3.4F * line : line) > all.y1 - 3 * em) { // a new column; a heading takes two lines with it
            x += width;
            y = top;
        }
        if (heading) {
            group = c.group;
            y += y > top ? 0.5F * line : 0;
            write(ui, x, y, ui.theme.accent, group, ui.strong);
            y += line;
        }
        write(ui, x, y, ui.theme.ink, c.key, ui.strong);
        write_within(ui, x + keys, y, width - keys - em, ui.theme.quiet, c.words);
        y += line;
    }
    write(ui, left, all.y1 - 2.2F * em, ui.theme.quiet,
          "Tab goes from one thing to the next, Enter presses it, up and down turn a value · Esc goes back", ui.small);
}

} // namespace tidemark::viewer
