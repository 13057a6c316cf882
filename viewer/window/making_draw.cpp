// The picture of the masses, and the page as a whole.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "viewer/window/making_page.h"

namespace tidemark::viewer {

void MakingPage::draw_mat(Ui& ui, SDL_Renderer* renderer, const Rect& r) {
    view.place(r);
    touch(ui, r);
    const Key key{r.width(), r.height(), view.px_per_mm(), view.middle().x, view.middle().y, edition_, mass, ui.theme.dark, photo_shown_};
    if (!(key == drawn_) || shown_.texture() == nullptr) {
        canvas_.size(static_cast<int>(r.width()), static_cast<int>(r.height()), ui.theme.mat);
        draw_sheet(canvas_, r, view, r, photo_shown_ ? photo_ : masses_, r.x0, r.x1);
        if (const std::vector<int> chosen = hatched(); !chosen.empty()) {
            // A chosen mass is hatched, whatever is below: its pixels as the masses have them.
            const reference::Masses& m = found_->masses;
            for (int y = 0; y < canvas_.height; ++y)
                for (int x = 0; x < canvas_.width; ++x) {
                    const Spot_mm at = view.mm(r.x0 + static_cast<float>(x), r.y0 + static_cast<float>(y), r);
                    const int i = static_cast<int>(at.x / view.width_mm() * m.width),
                              j = static_cast<int>(at.y / view.height_mm() * m.height);
                    if (at.x < 0 || at.y < 0 || i >= m.width || j >= m.height ||
                        std::find(chosen.begin(), chosen.end(), m.at(i, j)) == chosen.end())
                        continue;
                    const int stripe = (x + y) % 12;
                    if (stripe < 3)
                        canvas_.blend(x, y, stripe == 1 ? rgb(0xFFFFFF) : ui.theme.dark ? rgb(0x2F5A6B) : ui.theme.accent, 0.9F);
                }
        }
        shown_.take(renderer, canvas_);
        drawn_ = key;
    }
    ui.paint->AddImage(shown_.texture(), ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1));
    // The stroke in the hand, as squares along it.
    ImGui::PushClipRect(ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1), true);
    const float half = hand == HandDoes::brush ? std::max(2.0F, static_cast<float>(brush_mm_ / 2 * view.px_per_mm())) : 2.5F;
    for (const reference::Point& s : stroke_) {
        float x = 0, y = 0;
        view.px({s.x_mm, s.y_mm}, r, x, y);
        fill(ui, {x - half, y - half, x + half, y + half}, rgb(0xB4400A, hand == HandDoes::brush ? 90 : 255));
    }
    mark.draw(ui, view);
    ImGui::PopClipRect();
    if (!found_)
        write(ui, r.x0 + 1.5F * ui.em, r.y0 + 1.5F * ui.em, ui.theme.mat_ink, "Squinting …");
    else if (making_->busy())
        write(ui, r.x0 + 1.5F * ui.em, r.y0 + 0.5F * ui.em, ui.theme.mat_ink, "Squinting again …", ui.small);
}

void MakingPage::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    if (!making_)
        return;
    take_found();
    if (const auto own = making_->acts(); own && found_ != followed_ && making_->writing() < 0) {
        own->follow(*found_);
        followed_ = found_;
    }
    if (!written_ && making_->writing() < 0 && !making_->written().empty()) {
        written_ = true;
        goes_on = making_->written();
    }
    const float em = ui.em, top = std::round(2.9F * em), margin = std::round(std::min(22 * em, 0.4F * all.width()));
    fill(ui, all, ui.theme.ground);
    const Rect mat{all.x0, all.y0 + top, all.x1 - margin, all.y1};
    float x = all.x0 + 0.6F * em;
    const float y = std::round(all.y0 + 0.95F * em);
    if (word(ui, "‹ plans", x, y, false, nullptr, "first page"))
        wants_to_leave = true;
    x = write_within(ui, x + 0.5F * em, y, 14 * em, ui.theme.ink, making_->picture_file().filename().string(), ui.strong) + em;
    if (word(ui, "its masses", x, y, !photo_shown_ && !acting_))
        photo_shown_ = acting_ = false, ++edition_;
    if (word(ui, "the photograph", x, y, photo_shown_, key_of(Do::compare)))
        photo_shown_ = !photo_shown_;
    if (found_ && word(ui, "acts of your own", x, y, acting_, key_of(Do::add_act)))
        turn_to_acts();
    const auto own = making_->acts();
    const bool for_acts = acting_ && own && making_->writing() < 0;
    if ((acting_ ? for_acts && own->can_undo() : making_->can_undo()) && word(ui, "undo", x, y, false, key_of(Do::undo)))
        obey(Do::undo);
    if ((acting_ ? for_acts && own->can_redo() : making_->can_redo()) && word(ui, "redo", x, y, false, key_of(Do::redo)))
        obey(Do::redo);
    fill(ui, {all.x0, all.y0 + top - 1, all.x1, all.y0 + top}, ui.theme.rule);
    draw_mat(ui, renderer, mat);
    draw_note(ui, mat);
    draw_margin(ui, {mat.x1, mat.y0, all.x1, all.y1});
}

} // namespace tidemark::viewer
