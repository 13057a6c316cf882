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
    if (!note.empty())
        tell(note, note_is_wrong ? ui.theme.warning : ui.theme.ink);
    if (studio.what_if())
        y += draw_change(ui, x, y, width);
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    return y + 0.7F * em - top;
}

float Desk::draw_change(Ui& ui, float x, float y, float) {
    const float em = ui.em, top = y;
    y += 0.2F * em;
    write(ui, x, y, ui.theme.ink, "Changed since it was kept", ui.strong);
    y += 1.6F * em;
    float bx = x;
    if (button(ui, "Keep", bx, y, true))
        obey(Do::keep);
    if (button(ui, "Drop", bx, y))
        obey(Do::drop);
    if (button(ui, with_before ? "Before, off" : "Before", bx, y, false, "before"))
        obey(Do::with_before);
    return y + 2.5F * em - top;
}

std::string width_text(double mm) { return mm < 0.05 ? "under 0.1 mm" : fmt::format("{:.1f} mm", mm); }

void Desk::draw_list(Ui& ui, const Rect& r) {
    const float em = ui.em;
    float y = r.y0;
    if (!edges_of_) {
        write_wrapped(ui, r.x0, y, r.width(), ui.theme.quiet, "The edges are read off the sheet when it has dried.");
        return;
    }
    y += write_wrapped(ui, r.x0, y, r.width(), ui.theme.ink, edges_sentence(*edges_of_), ui.strong) + 0.5F * em;
    const Rect list{r.x0 - 0.5F * em, y, r.x1 + 0.5F * em, r.y1};
    const float tall = std::round(2.75F * em), all = tall * static_cast<float>(edges_.size());
    if (list.height() < tall)
        return;
    if (ImGui::GetIO().MouseWheel != 0 && list.holds(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y))
        list_scroll_ -= ImGui::GetIO().MouseWheel * tall;
    list_scroll_ = std::clamp(list_scroll_, 0.0F, std::max(0.0F, all - list.height()));
    ImGui::PushClipRect(ImVec2(list.x0, list.y0), ImVec2(list.x1, list.y1), true);
    for (std::size_t k = 0; k < edges_.size(); ++k) {
        const EdgeLine& e = edges_[k];
        const Rect row{list.x0, list.y0 + tall * static_cast<float>(k) - list_scroll_, list.x1,
                       list.y0 + tall * static_cast<float>(k + 1) - list_scroll_};
        const std::string name = fmt::format("edge {}: {}", k + 1, e.between);
        if (ui.focus == name && (row.y0 < list.y0 || row.y1 > list.y1))
            list_scroll_ += row.y0 < list.y0 ? row.y0 - list.y0 : row.y1 - list.y1;
        if (row.y1 < list.y0 || row.y0 > list.y1) {
            ui.controls.note_hidden(name);
            continue;
        }
        const Press p = press(ui, name, row);
        if (p.pressed)
            choose_edge(static_cast<int>(k));
        if (p.hovered || static_cast<int>(k) == edge)
            fill(ui, row, ui.theme.hover);
        const float x = row.x0 + 0.5F * em, y0 = row.y0 + 0.3F * em, width = row.width() - em;
        std::string said = e.word + (e.tidemark ? ", tidemark" : "");
        const float right = text_width(ui, said, ui.strong);
        write_within(ui, x, y0, width - right - 0.6F * em, ui.theme.ink, e.between);
        write_right(ui, x + width, y0, e.as_wanted ? ui.theme.accent : ui.theme.warning, said, ui.strong);
        std::string more = e.as_wanted || e.wanted.empty() ? (e.wanted.empty() ? "" : "as wanted")
                                                           : "wanted " + e.wanted;
        if (std::isfinite(e.width_mm))
            more += (more.empty() ? "" : ", ") + width_text(e.width_mm) + " wide";
        more += fmt::format("{}{:.0f} mm long", more.empty() ? "" : ", ", e.length_mm);
        write_within(ui, x, y0 + 1.2F * em, width, ui.theme.quiet, more + (e.draft ? " (draft)" : ""), ui.small);
        if (p.focused)
            focus_ring(ui, {row.x0 + 3, row.y0 + 3, row.x1 - 3, row.y1 - 3});
    }
    ImGui::PopClipRect();
    if (all > list.height()) {
        const float share = list.height() / all, at = list_scroll_ / all;
        fill(ui, {r.x1 + 0.75F * em, list.y0 + at * list.height(), r.x1 + 0.75F * em + 3,
                  list.y0 + (at + share) * list.height()},
             ui.theme.rule);
    }
}

} // namespace tidemark::viewer
