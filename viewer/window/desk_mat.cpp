// The sheet on its mat: drawn once for each change, zoomed, moved, compared.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "report/value_compare.h"
#include "viewer/window/desk.h"

namespace tidemark::viewer {

bool MatKey::operator==(const MatKey& o) const {
    const auto same = [](const Rect& a, const Rect& b) {
        return a.x0 == b.x0 && a.y0 == b.y0 && a.x1 == b.x1 && a.y1 == b.y1;
    };
    return same(area, o.area) && same(pane, o.pane) && px_per_mm == o.px_per_mm && middle_x == o.middle_x && middle_y == o.middle_y &&
           sheet == o.sheet && other == o.other && edges == o.edges && chosen == o.chosen && lit == o.lit && curtain == o.curtain &&
           compare == o.compare;
}

namespace {

constexpr const char* whole_words = "the whole sheet  f";

} // namespace

void Desk::draw_mat(Ui& ui, SDL_Renderer* renderer, const Rect& r) {
    const bool two = compare == Compare::beside;
    const float gap = std::round(0.4F * ui.em);
    // Room for what explains the lines and the halves, so that a whole sheet is not covered by it.
    const float told = std::round(std::min(2.1F * ui.em, 0.12F * r.height()));
    Rect whole = r;
    if (edges_shown && !edges_.empty())
        whole.y0 += told;
    if (compare != Compare::alone)
        whole.y1 -= told;
    const Rect pane = two ? Rect{r.x0, whole.y0, std::floor((r.x0 + r.x1 - gap) / 2), whole.y1} : whole;
    const Rect second = two ? Rect{pane.x1 + gap, whole.y0, pane.x1 + gap + pane.width(), whole.y1} : whole;
    view.place(pane);
    touch_mat(ui, pane, second);
    MatKey key{r, pane, view.px_per_mm(), view.middle().x, view.middle().y, sheet_.edition, 0, 0, -1, -1, 0, compare};
    if (two || compare == Compare::curtain)
        key.other = other_.edition;
    if (compare == Compare::curtain)
        key.curtain = curtain;
    if (edges_shown || lit_ >= 0)
        key.edges = edges_edition_, key.chosen = edges_shown ? edge + 1000 : -1, key.lit = lit_;
    if (!(key == mat_key_) || mat_.texture() == nullptr || mat_.width() != static_cast<int>(r.width())) {
        compose_mat(ui, renderer, key, second);
        mat_key_ = key;
    }
    ui.paint->AddImage(mat_.texture(), ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1));
    if (sheet_.pixels.width == 0)
        write(ui, r.x0 + 1.5F * ui.em, r.y0 + 1.5F * ui.em, ui.theme.mat_ink, "The first wash is being laid …");
    if (compare == Compare::curtain) {
        const float x = std::floor(r.x0 + curtain * r.width());
        fill(ui, {x - 1, r.y0, x + 1, r.y1}, ui.theme.mat_ink);
        fill(ui, {x - 5, r.middle_y() - 1.2F * ui.em, x + 5, r.middle_y() + 1.2F * ui.em}, ui.theme.mat_ink);
    }
    ImGui::PushClipRect(ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1), true);
    draw_legend(ui, r);
    ImGui::PopClipRect();
}

void Desk::compose_mat(const Ui& ui, SDL_Renderer* renderer, const MatKey& key, const Rect& second) {
    const Rect& pane = key.pane;
    const Rect r = mat_area_;
    canvas_.size(static_cast<int>(r.width()), static_cast<int>(r.height()), ui.theme.mat);
    const float cut = compare == Compare::curtain ? std::floor(r.x0 + curtain * r.width()) : pane.x1;
    // What was comes first, as one reads; the reference stands behind the sheet.
    const bool two = compare == Compare::curtain || compare == Compare::beside, swapped = two && against_before();
    draw_sheet(canvas_, r, view, pane, swapped ? other_.pixels : sheet_.pixels, pane.x0, cut);
    const Pixels& behind = swapped ? sheet_.pixels : other_.pixels;
    if (compare == Compare::curtain)
        draw_sheet(canvas_, r, view, pane, behind, cut, pane.x1);
    if (compare == Compare::beside)
        draw_sheet(canvas_, r, view, second, behind, second.x0, second.x1);
    if (edges_shown || lit_ >= 0) {
        MatKey lines = key; // lines lie the same whatever is below them
        lines.sheet = lines.other = 0, lines.curtain = 0;
        if (!(lines == lines_key_) || lines_.width != canvas_.width || lines_.height != canvas_.height) {
            lines_.size(canvas_.width, canvas_.height, 0);
            draw_edges(ui, pane);
            if (compare == Compare::beside)
                draw_edges(ui, second);
            lines_key_ = lines;
        }
        lay_over(canvas_, lines_);
    }
    mat_.take(renderer, canvas_);
}

void Desk::touch_mat(Ui& ui, const Rect& pane, const Rect& second) {
    const Rect r = mat_area_;
    const ImGuiIO& io = ImGui::GetIO();
    // Here, so that the curtain's own handle is taken first.
    const float cut = r.x0 + curtain * r.width();
    if (compare == Compare::curtain) {
        const Press hold_it = press(ui, "curtain", {cut - 0.6F * ui.em, r.y0, cut + 0.6F * ui.em, r.y1}, false);
        if (hold_it.held)
            curtain = std::clamp((io.MousePos.x - r.x0) / r.width(), 0.0F, 1.0F);
        if (hold_it.held || hold_it.hovered) {
            pointer_.reset();
            ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
            return;
        }
    }
    whole_ = {}, whole_hovered_ = false;
    if (!view.fitted()) {
        const float em = ui.em, h = text_height(ui, ui.small) + 0.7F * em, w = text_width(ui, whole_words, ui.small) + em;
        const float y = r.y1 - 0.7F * em - (compare == Compare::beside || compare == Compare::curtain ? 2 * h + 0.4F * em : h);
        whole_ = {std::round(r.x1 - 0.7F * em - w), std::round(y), std::round(r.x1 - 0.7F * em), std::round(y + h)};
        const Press back = press(ui, "whole sheet", whole_);
        whole_hovered_ = back.hovered || back.focused;
        if (back.pressed)
            view.fit();
        if (back.hovered || back.held)
            return pointer_.reset();
    }
    const Press p = press(ui, "sheet", r, false);
    pointer_.reset();
    if (!p.hovered && !p.held)
        return;
    const Rect& under = second.holds(io.MousePos.x, io.MousePos.y) ? second : pane;
    const Spot_mm spot = view.mm(io.MousePos.x, io.MousePos.y, under);
    if (spot.x >= 0 && spot.y >= 0 && spot.x < view.width_mm() && spot.y < view.height_mm())
        pointer_ = spot;
    if (io.MouseWheel != 0) {
        const float dx = under.x0 - pane.x0;
        view.zoom(std::pow(1.18, static_cast<double>(io.MouseWheel)), io.MousePos.x - dx, io.MousePos.y);
    }
    if (p.held && (std::abs(io.MouseDelta.x) > 0 || std::abs(io.MouseDelta.y) > 0) && ImGui::IsMouseDragging(0, 3))
        view.pan(io.MouseDelta.x, io.MouseDelta.y);
    if (p.pressed && slip == Slip::adding && io.MouseDragMaxDistanceSqr[0] < 16)
        choose_place(spot);
    else if (ImGui::IsMouseDoubleClicked(0))
        view.fit();
}

void Desk::draw_legend(Ui& ui, const Rect& r) {
    const float em = ui.em, h = text_height(ui, ui.small) + 0.7F * em;
    const auto label = [&](float x, float y, const std::string& text, bool right = false) {
        const float w = text_width(ui, text, ui.small) + em;
        const float x0 = right ? x - w : x;
        fill(ui, {x0, y, x0 + w, y + h}, rgb(0xF4F4F2));
        write(ui, x0 + 0.5F * em, y + 0.35F * em, rgb(0x1E1E1E), text, ui.small);
    };
    const float y = std::round(r.y1 - h - 0.7F * em);
    if (whole_.width() > 1) {
        fill(ui, whole_, rgb(0xF4F4F2));
        write(ui, whole_.x0 + 0.5F * em, whole_.y0 + 0.35F * em, rgb(0x1E1E1E), whole_words, ui.small);
        if (whole_hovered_)
            frame(ui, whole_, rgb(0x1E1E1E), 2);
    }
    if (compare == Compare::curtain || compare == Compare::beside) {
        const double after_m = sheet_.run ? sheet_.run->cell_m() : 0, before_m = against_before() && other_.run ? other_.run->cell_m() : after_m;
        const auto coarser = [](bool is) { return is ? ", coarser: edges can't be judged yet" : ""; };
        label(r.x0 + 0.7F * em, y, against_before() ? fmt::format("before the change{}", coarser(before_m > after_m)) : "the sheet");
        label(r.x1 - 0.7F * em, y, against_before() ? fmt::format("after{}", coarser(after_m > before_m)) : "the reference", true);
    }
    if (compare == Compare::difference) {
        const std::string darker = against_before() ? "darker than before" : "darker than the reference", lighter = "lighter";
        const float bar = 9 * em, x0 = r.x0 + 0.7F * em;
        const float w = text_width(ui, darker, ui.small) + text_width(ui, lighter, ui.small) + bar + 2.4F * em;
        fill(ui, {x0, y, x0 + w, y + h}, rgb(0xF4F4F2));
        float x = write(ui, x0 + 0.5F * em, y + 0.35F * em, rgb(0x1E1E1E), darker, ui.small) + 0.6F * em;
        for (int k = 0; k < 17; ++k) { // by 5 L* from 40 darker to 40 lighter
            const auto tone = report::difference_tone(5.0F * static_cast<float>(k - 8));
            const float step = bar / 17;
            fill(ui, {x + step * static_cast<float>(k), y + 0.35F * em, x + step * static_cast<float>(k + 1), y + h - 0.35F * em},
                 rgb(static_cast<unsigned>(tone.r) << 16 | static_cast<unsigned>(tone.g) << 8 | tone.b));
        }
        write(ui, x + bar + 0.6F * em, y + 0.35F * em, rgb(0x1E1E1E), lighter, ui.small);
    }
    if (edges_shown && !edges_.empty()) {
        float x = r.x0 + 0.7F * em;
        const float top = r.y0 + 0.7F * em;
        const std::string words[] = {"hard", "firm", "soft", "lost"};
        std::string wanted = "wanted, where it is otherwise";
        float length = 2.8F * em;
        const auto wide = [&] {
            float w = 1.4F * em + length + text_width(ui, wanted, ui.small);
            for (const std::string& s : words)
                w += text_width(ui, s, ui.small) + length + 1.5F * em;
            return w;
        };
        if (wide() > r.width() - 1.4F * em) // large letters: shorter lines, fewer words
            wanted = "wanted", length = 1.5F * em;
        const float w = wide();
        fill(ui, {x, top, x + w, top + h}, rgb(0xF4F4F2));
        x += 0.5F * em;
        const float mid = std::round(top + h / 2), thin = std::max(1.5F, em * 0.11F);
        const auto sample = [&](const Pen& pen, Colour c) {
            const float period = pen.dash + pen.gap, end = x + length;
            for (float at = x; at < end; at += period > 0 ? period : length)
                fill(ui, {at, mid - 1, std::min(end, period > 0 ? at + std::max(2.0F, pen.dash) : end), mid + 1}, c);
            x = end + 0.4F * em;
        };
        for (const std::string& s : words) {
            sample(pen_of(s, thin), rgb(0x141414));
            x = write(ui, x, top + 0.35F * em, rgb(0x1E1E1E), s, ui.small) + 1.1F * em;
        }
        sample(pen_of("hard", thin), rgb(0xB4400A));
        write(ui, x, top + 0.35F * em, rgb(0x8A3206), wanted, ui.small);
    }
}

} // namespace tidemark::viewer
