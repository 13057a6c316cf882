// What there is to read beside the sheet: how far it is, what is under the pointer, the edges.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

namespace {

std::string left_text(double s) {
    if (s < 0)
        return {};
    return s < 90 ? fmt::format(", about {:.0f} s to go", std::max(1.0, s)) : fmt::format(", about {:.0f} min to go", s / 60);
}

} // namespace

void Desk::draw_margin(Ui& ui, const Rect& r) {
    const float em = ui.em, pad = std::round(1.1F * em);
    const float x = r.x0 + pad, width = r.width() - 2 * pad;
    float y = r.y0 + std::round(0.9F * em);
    if (slip == Slip::save_as || slip == Slip::leaving)
        return draw_question(ui, {x, y, x + width, r.y1});
    y += draw_state(ui, x, y, width);
    if (slip == Slip::sheet)
        return draw_sheet_slip(ui, {x, y, x + width, r.y1 - 0.4F * em});
    if (slip == Slip::adding)
        return draw_adding(ui, {x, y, x + width, r.y1 - 0.4F * em});
    if (act >= 0)
        return draw_act_slip(ui, {x, y, x + width, r.y1 - 0.4F * em});
    draw_list(ui, {x, y, x + width, r.y1 - 0.4F * em});
}

float Desk::draw_state(Ui& ui, float x, float y, float width) {
    const float em = ui.em, line = 1.35F * em, top = y;
    const auto draft = studio.draft(), truth = studio.truth();
    const std::shared_ptr<Run> now = studio.shown(minute_s);
    const auto tell = [&](const std::string& text, Colour c) { y += write_wrapped(ui, x, y, width, c, text, ui.small) + 0.35F * em; };
    write(ui, x, y, ui.theme.ink, clock_text(minute_s), ui.title);
    if (now && now->progress().acting && following && !now->progress().over())
        write_within(ui, x + 5.2F * em, y + 0.45F * em, width - 5.2F * em, ui.theme.quiet,
                     now->plan().steps[static_cast<std::size_t>(*now->progress().acting)].name);
    else {
        std::string doing;
        for (const StripAct* a : strip_.in_order())
            if (a->start_s <= minute_s + 0.5 && a->end_s >= minute_s - 0.5)
                doing = a->name;
        write_within(ui, x + 5.2F * em, y + 0.45F * em, width - 5.2F * em, ui.theme.quiet, doing);
    }
    y += 1.6F * line;
    const std::vector<grid::Problem>& problems = studio.document().problems();
    if (!problems.empty()) {
        tell(problems.front().line(), ui.theme.warning);
        float bx = x;
        if (button(ui, "Read again", bx, y))
            obey(Do::read_again);
        y += 2.4F * em;
    }
    const std::shared_ptr<Run>& first = truth ? truth : draft;
    if (first && first->progress().is == RunProgress::Is::failed)
        tell(first->progress().problem, ui.theme.warning);
    else if (now) {
        const RunProgress p = now->progress();
        std::string said = fmt::format("Seen in cells of {:.2g} mm{}.", 1e3 * now->cell_m(), now->draft() ? ", a draft" : "");
        if (!p.over() && (!truth || now == truth))
            said = fmt::format("{} painted{}.", now->draft() ? "A draft is being" : "It is being", left_text(p.left_wall_s));
        else if (truth && truth != now && !truth->progress().over())
            said += fmt::format(" The fine sheet is at {}{}.", clock_text(truth->progress().time_s),
                                left_text(truth->progress().left_wall_s));
        tell(said, ui.theme.quiet);
    }
    if (studio.what_if())
        y += draw_change(ui, x, y, width);
    if (!note.empty())
        tell(note, note_is_wrong ? ui.theme.warning : ui.theme.ink);
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    return y + 0.7F * em - top;
}

float Desk::draw_change(Ui& ui, float x, float y, float width) {
    const float em = ui.em, top = y;
    y += 0.2F * em;
    write(ui, x, y, ui.theme.ink, "Changed since it was kept", ui.strong);
    y += 1.6F * em;
    float bx = x;
    if (button(ui, "Keep", bx, y, true))
        obey(Do::keep);
    if (button(ui, "Drop", bx, y))
        obey(Do::drop);
    const std::string other = with_before && has_reference() ? "Reference" : "Before"; // what it is compared with next
    if (bx + text_width(ui, other) + 1.6F * em > x + width)
        bx = x, y += 2.2F * em;
    if (button(ui, other, bx, y, false, "before"))
        obey(Do::with_before);
    return y + 2.5F * em - top;
}

} // namespace tidemark::viewer
