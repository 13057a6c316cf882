// The list of edges: what is not as wanted first, what nobody asked about folded away.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

std::size_t Desk::edges_listed() const {
    const std::size_t asked = edges_asked(edges_);
    return others_listed || asked == 0 ? edges_.size() : asked;
}

std::string Desk::edge_name(std::size_t k) const { return fmt::format("edge {}: {}", k + 1, edges_[k].between); }

std::string width_text(double mm) { return mm < 0.05 ? "under 0.1 mm" : fmt::format("{:.1f} mm", mm); }

void Desk::draw_list(Ui& ui, const Rect& r) {
    const float em = ui.em;
    float y = r.y0;
    if (!edges_of_) {
        write_wrapped(ui, r.x0, y, r.width(), ui.theme.quiet, "The edges are read off the sheet when it has dried.");
        return;
    }
    y += write_wrapped(ui, r.x0, y, r.width(), ui.theme.ink, edges_sentence(*edges_of_), ui.strong) + 0.3F * em;
    if (const std::string caution = edges_caution(*edges_of_); !caution.empty())
        y += write_wrapped(ui, r.x0, y, r.width(), ui.theme.warning, caution, ui.small);
    y += 0.3F * em;
    const Rect list{r.x0 - 0.5F * em, y, r.x1 + 0.5F * em, r.y1};
    // Those that nobody asked about are folded away behind one line.
    const std::size_t listed = edges_listed(), asked = edges_asked(edges_);
    const bool folds = asked > 0 && asked < edges_.size();
    const float tall = std::round(2.75F * em), fold_tall = folds ? tall : 0,
                all = tall * static_cast<float>(listed) + fold_tall;
    lit_ = -1;
    if (list.height() < tall)
        return;
    if (ImGui::GetIO().MouseWheel != 0 && list.holds(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y))
        list_scroll_ -= ImGui::GetIO().MouseWheel * tall;
    list_scroll_ = std::clamp(list_scroll_, 0.0F, std::max(0.0F, all - list.height()));
    ImGui::PushClipRect(ImVec2(list.x0, list.y0), ImVec2(list.x1, list.y1), true);
    float top = list.y0 - list_scroll_;
    const auto next_row = [&](const std::string& name) -> std::optional<Rect> {
        const Rect row{list.x0, top, list.x1, top + tall};
        top += tall;
        if (ui.focus == name && (row.y0 < list.y0 || row.y1 > list.y1))
            list_scroll_ += row.y0 < list.y0 ? row.y0 - list.y0 : row.y1 - list.y1;
        if (row.y1 >= list.y0 && row.y0 <= list.y1)
            return row;
        ui.controls.note_hidden(name);
        return std::nullopt;
    };
    for (std::size_t k = 0; k < listed; ++k) {
        if (k == asked && folds)
            draw_fold(ui, next_row("other edges"));
        if (const auto row = next_row(edge_name(k)); row && draw_edge_row(ui, k, *row))
            choose_edge(static_cast<int>(k));
    }
    if (folds && listed == asked)
        draw_fold(ui, next_row("other edges"));
    ImGui::PopClipRect();
    if (all > list.height()) {
        const float share = list.height() / all, at = list_scroll_ / all;
        fill(ui, {r.x1 + 0.75F * em, list.y0 + at * list.height(), r.x1 + 0.75F * em + 3,
                  list.y0 + (at + share) * list.height()},
             ui.theme.rule);
    }
}

void Desk::draw_fold(Ui& ui, const std::optional<Rect>& row) {
    if (!row)
        return;
    const float em = ui.em;
    const std::size_t others = edges_.size() - edges_asked(edges_);
    const Press p = press(ui, "other edges", *row);
    if (p.pressed)
        others_listed = !others_listed;
    if (p.hovered)
        fill(ui, *row, ui.theme.hover);
    fill(ui, {row->x0 + 0.5F * em, row->y0, row->x1 - 0.5F * em, row->y0 + 1}, ui.theme.rule);
    write_within(ui, row->x0 + 0.5F * em, row->y0 + 0.3F * em, row->width() - em, ui.theme.ink,
                 others_listed ? "fold away the others" : fmt::format("{} others …", others));
    write_within(ui, row->x0 + 0.5F * em, row->y0 + 1.5F * em, row->width() - em, ui.theme.quiet,
                 "edges that the plan wants nothing of", ui.small);
    if (p.focused)
        focus_ring(ui, {row->x0 + 3, row->y0 + 3, row->x1 - 3, row->y1 - 3});
}

bool Desk::draw_edge_row(Ui& ui, std::size_t k, const Rect& row) {
    const float em = ui.em;
    const EdgeLine& e = edges_[k];
    const Press p = press(ui, edge_name(k), row);
    if (p.hovered || p.focused)
        lit_ = static_cast<int>(k);
    if (p.hovered || static_cast<int>(k) == edge)
        fill(ui, row, ui.theme.hover);
    const float x = row.x0 + 0.5F * em, y0 = row.y0 + 0.3F * em, width = row.width() - em;
    const std::string said = e.word + (e.tidemark ? ", tidemark" : "");
    const float right = text_width(ui, said, ui.strong);
    write_within(ui, x, y0, width - right - 0.6F * em, ui.theme.ink, e.between);
    write_right(ui, x + width, y0, e.as_wanted ? ui.theme.accent : ui.theme.warning, said, ui.strong);
    std::string more = place_words(e.middle.x_mm, e.middle.y_mm, view.width_mm(), view.height_mm());
    const std::string wish = e.as_wanted || e.wanted.empty() ? (e.wanted.empty() ? "" : "as wanted") : "wanted " + e.wanted;
    if (!wish.empty())
        more = wish + ", " + more;
    if (std::isfinite(e.width_mm))
        more += ", " + width_text(e.width_mm) + " wide";
    more += fmt::format(", {:.0f} mm", e.length_mm);
    write_within(ui, x, y0 + 1.2F * em, width, ui.theme.quiet, more, ui.small); // whether it is a draft stands above the list
    if (p.focused)
        focus_ring(ui, {row.x0 + 3, row.y0 + 3, row.x1 - 3, row.y1 - 3});
    return p.pressed;
}

} // namespace tidemark::viewer
