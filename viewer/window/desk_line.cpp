// The minute line: for every mass its ribbon of stages with the acts on it, one axis of minutes, one mark for the moment.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

namespace {

float x_of(const Rect& axis, double s, double end_s) {
    return std::floor(axis.x0 + static_cast<float>(std::clamp(s / end_s, 0.0, 1.0)) * axis.width());
}

} // namespace

void Desk::draw_line(Ui& ui, SDL_Renderer*, const Rect& r) {
    const float em = ui.em;
    const ImGuiIO& io = ImGui::GetIO();
    fill(ui, {r.x0, r.y0, r.x1, r.y0 + 1}, ui.theme.rule);
    // Its own line of words.
    float x = r.x0 + 0.6F * em, y = std::round(r.y0 + 0.75F * em);
    if (word(ui, playing ? "pause" : "play", x, y, playing, key_of(Do::play), "play"))
        obey(Do::play);
    for (const auto& [times, what] : {std::pair{1, Do::pace_1}, {10, Do::pace_10}, {60, Do::pace_60}})
        if (word(ui, fmt::format("{}×", times), x, y, pace == times)) {
            const bool was = playing;
            obey(what);
            playing = was;
        }
    x += 0.6F * em;
    if (word(ui, "‹ act", x, y, false, key_of(Do::act_before), "act before"))
        obey(Do::act_before);
    if (word(ui, "act ›", x, y, false, key_of(Do::act_after), "next act"))
        obey(Do::act_after);
    if (word(ui, "dry sheet", x, y, following, key_of(Do::to_end), "to the end"))
        obey(Do::to_end);
    // The key to the patterns.
    float kx = r.x1 - 1.1F * em;
    constexpr const char* stages[] = {"wet", "moist", "damp", "dry"};
    for (int stage = 3; stage >= 0; --stage) {
        const float w = text_width(ui, stages[stage], ui.small);
        if (kx - w - 3.4F * em < x)
            break;
        write(ui, kx - w, y + 0.1F * em, ui.theme.quiet, stages[stage], ui.small);
        kx -= w + 0.4F * em;
        patterns_.draw(ui, {kx - 2 * em, y + 0.15F * em, kx, y + 1.05F * em}, stage);
        kx -= 3 * em;
    }
    const float names = std::round(std::min(9.5F * em, 0.2F * r.width())), tall = std::round(1.42F * em);
    const Rect axis{r.x0 + names, r.y0 + 2.35F * em, r.x1 - 1.1F * em, r.y1 - 1.55F * em};
    const double s_px = strip_.end_s / std::max(1.0F, axis.width());
    if (axis.height() < tall)
        return;
    // Rows, scrolled by the wheel; while the minute goes by itself, to where the hand is.
    const Rect rows{r.x0, axis.y0, r.x1, axis.y1};
    const float all = tall * static_cast<float>(strip_.rows.size());
    if (io.MouseWheel != 0 && rows.holds(io.MousePos.x, io.MousePos.y))
        rows_scroll_ -= tall * io.MouseWheel;
    else if ((playing || following) && dragged_ < 0) {
        for (std::size_t k = 0; k < strip_.rows.size(); ++k)
            for (const StripAct& a : strip_.rows[k].acts)
                if (a.start_s <= minute_s && a.end_s >= minute_s && !(following && minute_s >= strip_.end_s))
                    rows_scroll_ = std::clamp(rows_scroll_, tall * static_cast<float>(k + 1) - axis.height(),
                                              tall * static_cast<float>(k));
    }
    rows_scroll_ = std::clamp(rows_scroll_, 0.0F, std::max(0.0F, all - axis.height()));
    ImGui::PushClipRect(ImVec2(rows.x0, rows.y0), ImVec2(rows.x1, rows.y1), true);
    for (std::size_t k = 0; k < strip_.rows.size(); ++k) {
        const float top = std::round(axis.y0 + tall * static_cast<float>(k) - rows_scroll_);
        if (top + tall < axis.y0 || top > axis.y1)
            continue;
        draw_row(ui, strip_.rows[k], {r.x0 + 1.1F * em, top, axis.x0 - 0.6F * em, top + tall},
                 {axis.x0, top, axis.x1, top + tall}, s_px);
    }
    // What is left of the line takes the pointer to a minute.
    const Press scrub = press(ui, "minute line", {axis.x0, axis.y0, axis.x1, axis.y1}, false);
    ImGui::PopClipRect();
    const Press ruler = press(ui, "ruler", {axis.x0, axis.y1, axis.x1, r.y1}, false);
    if (scrub.held || ruler.held) {
        playing = false;
        go_to((io.MousePos.x - axis.x0) * s_px);
    }
    // Minutes.
    const double step = axis_step_min(strip_.end_s, axis.width() / (4.5F * em));
    for (double m = 0; m * 60 <= strip_.end_s; m += step) {
        const float at = x_of(axis, 60 * m, strip_.end_s);
        fill(ui, {at, axis.y1, at + 1, axis.y1 + 0.4F * em}, ui.theme.quiet);
        const std::string label = fmt::format("{:.0f}", m);
        write(ui, at - text_width(ui, label, ui.small) / 2, axis.y1 + 0.45F * em, ui.theme.quiet, label, ui.small);
    }
    fill(ui, {axis.x0, axis.y1, axis.x1, axis.y1 + 1}, ui.theme.quiet);
    write(ui, r.x0 + 1.1F * em, axis.y1 + 0.45F * em, ui.theme.quiet, "minutes", ui.small);
    // How far the fine sheet has come, along the foot; the moment, across all.
    if (strip_.true_s > 0)
        fill(ui, {axis.x0, axis.y1 - 2, x_of(axis, strip_.true_s, strip_.end_s), axis.y1 + 1}, ui.theme.accent);
    const float at = x_of(axis, minute_s, strip_.end_s);
    fill(ui, {at - 1, axis.y0 - 0.2F * em, at + 1, axis.y1 + 0.4F * em}, ui.theme.ink);
    fill(ui, {at - 0.3F * em, axis.y0 - 0.35F * em, at + 0.3F * em, axis.y0 - 0.05F * em}, ui.theme.ink);
    if (dragged_ >= 0) {
        const std::string label = fmt::format("begins at {}", clock_text(drag_to_s_));
        const float w = text_width(ui, label, ui.strong) + em,
                    lx = std::min(x_of(axis, drag_to_s_, strip_.end_s), axis.x1 - w);
        fill(ui, {lx, axis.y0 - 0.3F * em, lx + w, axis.y0 + 1.5F * em}, ui.theme.accent);
        write(ui, lx + 0.5F * em, axis.y0 + 0.1F * em, ui.theme.ground, label, ui.strong);
    }
}

void Desk::draw_row(Ui& ui, const StripRow& row, const Rect& name, const Rect& ribbon, double s_px) {
    const float em = ui.em, tall = std::round(0.95F * em);
    const float top = std::round(ribbon.y0 + (ribbon.height() - tall) / 2);
    const bool here = std::any_of(row.acts.begin(), row.acts.end(), [&](const StripAct& a) { return a.step == act; });
    write_within(ui, name.x0, top, name.width(), here ? ui.theme.accent : ui.theme.ink, row.name, here ? ui.strong : ui.small);
    for (const StripSpan& s : row.spans) {
        const float x0 = x_of(ribbon, s.from_s, strip_.end_s), x1 = x_of(ribbon, s.to_s, strip_.end_s);
        if (x1 > x0)
            patterns_.draw(ui, {x0, top, x1, top + tall}, s.stage);
    }
    for (const StripAct& a : row.acts) {
        const bool dragging = a.step == dragged_;
        const double from = dragging ? drag_to_s_ : a.start_s;
        float x0 = x_of(ribbon, from, strip_.end_s);
        const float x1 = std::max(x_of(ribbon, from + a.end_s - a.start_s, strip_.end_s), x0 + std::round(0.5F * em));
        const Rect block{x0, top - std::round(0.12F * em), x1, top + tall + std::round(0.12F * em)};
        const Press p = press(ui, "act: " + a.name, {block.x0 - 2, ribbon.y0, block.x1 + 2, ribbon.y1});
        const bool chosen = a.step == act;
        // An act is a slip of paper on the ribbon, with its edge drawn: the hand is there.
        fill(ui, block, chosen ? ui.theme.accent : a.played ? ui.theme.slip : ui.theme.ground);
        frame(ui, block, chosen || p.hovered ? ui.theme.ink : ui.theme.quiet, chosen || p.hovered ? 2 : 1);
        if (p.focused)
            focus_ring(ui, block);
        const float width = text_width(ui, a.verb, ui.small);
        if (block.width() > width + 0.6F * em)
            write(ui, block.x0 + 0.3F * em, block.y0 + (block.height() - text_height(ui, ui.small)) / 2,
                  chosen ? ui.theme.ground : a.played ? ui.theme.ink : ui.theme.quiet, a.verb, ui.small);
        if (p.hovered && dragged_ < 0) {
            const std::string tip = fmt::format("{} · {} to {}", a.name, clock_text(a.start_s), clock_text(a.end_s));
            ImDrawList* over = ImGui::GetForegroundDrawList();
            const float w = text_width(ui, tip) + em, h = text_height(ui) + 0.7F * em;
            const float tx = std::floor(std::clamp(block.x0, 0.0F, ribbon.x1 - w)), ty = std::floor(ribbon.y0 - h - 0.2F * em);
            over->AddRectFilled(ImVec2(tx, ty), ImVec2(tx + w, ty + h), ui.theme.ink);
            over->AddText(ui.body, ui.em, ImVec2(tx + std::floor(0.5F * em), ty + std::floor(0.35F * em)), ui.theme.ground,
                          tip.c_str());
        }
        const ImGuiIO& io = ImGui::GetIO();
        if (p.held && ImGui::IsMouseDragging(0, 4)) {
            if (dragged_ != a.step) {
                dragged_ = a.step;
                drag_hold_s_ = (io.MouseClickedPos[0].x - ribbon.x0) * s_px - a.start_s;
                choose_act(a.step);
            }
            // To five seconds: nobody paints by finer ones.
            drag_to_s_ = std::max(0.0, std::round(((io.MousePos.x - ribbon.x0) * s_px - drag_hold_s_) / 5) * 5);
        } else if (dragged_ == a.step && !p.held) {
            dragged_ = -1;
            if (std::abs(drag_to_s_ - a.start_s) >= 1)
                move_act(a.step, drag_to_s_);
        } else if (p.pressed && dragged_ < 0) {
            choose_act(chosen ? -1 : a.step);
            if (!chosen)
                go_to(a.end_s);
        }
    }
}

} // namespace tidemark::viewer
