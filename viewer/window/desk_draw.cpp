// The page as a whole, and the line of words at its head.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    const float em = ui.em;
    if (!is_open()) {
        fill(ui, all, ui.theme.ground);
        float x = all.x0 + 0.6F * em;
        if (word(ui, "‹ plans", x, all.y0 + 0.95F * em, false, nullptr, "first page"))
            wants_to_leave = true;
        const std::string failed = studio.opening_failed();
        write_wrapped(ui, all.x0 + 2 * em, all.y0 + 5 * em, all.width() - 4 * em,
                      failed.empty() ? ui.theme.quiet : ui.theme.warning, failed.empty() ? "Reading the plan …" : failed);
        return;
    }
    const std::vector<TopWord> words = top_words();
    const float top = std::round((1.1F + 1.85F * static_cast<float>(lines_of(ui, words, all.width()))) * em);
    const bool broken = !studio.document().problems().empty() && !studio.document().plan();
    const float margin = std::round(std::min(20 * em, 0.36F * all.width()));
    const float most = std::max(3.0F, std::floor((0.31F * all.height() / em - 3.9F) / 1.42F));
    const float rows = std::clamp(static_cast<float>(places_), 3.0F, most); // from the start, so that nothing moves
    const float foot = std::round(std::min((3.9F + 1.42F * rows) * em, 0.4F * all.height()));
    mat_area_ = {all.x0, all.y0 + top, all.x1 - margin, all.y1 - foot};
    margin_ = {mat_area_.x1, all.y0 + top, all.x1, all.y1 - foot};
    line_ = {all.x0, all.y1 - foot, all.x1, all.y1};
    if (margin_.height() < 24 * em) // large type: more to read than there is room for beside the sheet
        margin_.y1 = all.y1, line_.x1 = margin_.x0;
    patterns_.make(renderer, ui.theme, static_cast<int>(std::round(0.95F * em)));
    fill(ui, all, ui.theme.ground);
    draw_top(ui, {all.x0, all.y0, all.x1, all.y0 + top}, words);
    if (broken)
        return draw_problems(ui, {all.x0, all.y0 + top, all.x1, all.y1});
    draw_mat(ui, renderer, mat_area_);
    ImGui::PushClipRect(ImVec2(margin_.x0, margin_.y0), ImVec2(margin_.x1, margin_.y1), true);
    draw_margin(ui, margin_);
    ImGui::PopClipRect();
    draw_line(ui, renderer, line_);
    ImGui::PushClipRect(ImVec2(mat_area_.x0, mat_area_.y0), ImVec2(mat_area_.x1, mat_area_.y1), true);
    mark.draw(ui, view);
    ImGui::PopClipRect();
    draw_glass(ui, mat_area_);
}

std::vector<Desk::TopWord> Desk::top_words() const {
    const bool no_difference = compare != Compare::difference;
    const auto look_word = [&](const char* label, Do what, LookKind kind) {
        return TopWord{label, label, what, look == kind && no_difference, false};
    };
    const std::string against = compare == Compare::alone ? "compare" : fmt::format("compare: {}", word_of(compare));
    return {look_word("wet, as now", Do::look_now, LookKind::now),
            look_word("as it will dry", Do::look_dried, LookKind::dried),
            look_word("values", Do::look_values, LookKind::values),
            look_word("groups", Do::look_groups, LookKind::groups),
            look_word("water", Do::look_water, LookKind::water),
            {against, "compare", Do::compare, compare != Compare::alone, true},
            {"edges", "edges", Do::edges, edges_shown, false},
            {"add an act", "add an act", Do::add_act, slip == Slip::adding, true},
            {"the sheet", "the sheet", std::nullopt, slip == Slip::sheet, false},
            {"in class", "in class", Do::in_class, false, false},
            {"keys", "keys", Do::keys, false, false}};
}

namespace {

float name_room(const Ui& ui, float width) { return std::min(12 * ui.em, 0.3F * width); }

float width_of(const Ui& ui, const std::string& label, const char* hint) {
    return text_width(ui, label, ui.strong) + 0.9F * ui.em + (hint != nullptr ? text_width(ui, hint, ui.small) + 0.4F * ui.em : 0);
}

} // namespace

int Desk::lines_of(const Ui& ui, const std::vector<TopWord>& words, float width) const {
    int lines = 1;
    const float name = std::min(name_room(ui, width), text_width(ui, name_shown() + " · edited", ui.strong));
    float x = std::max(0.6F * ui.em + width_of(ui, "‹ plans", nullptr) + 1.7F * ui.em + name, 7 * ui.em);
    for (const TopWord& w : words) {
        const float wide = width_of(ui, w.label, w.what ? key_of(*w.what) : nullptr);
        if (x + wide > width - 0.5F * ui.em) {
            x = 0.6F * ui.em;
            ++lines;
        }
        x += wide + (w.gap ? 0.6F * ui.em : 0);
    }
    return lines;
}

std::string Desk::name_shown() const {
    const std::filesystem::path& file = studio.document().file();
    const std::string folder = file.parent_path().filename().string(), name = file.filename().string();
    return name == "plan.toml" && !folder.empty() ? folder : name;
}

void Desk::draw_top(Ui& ui, const Rect& r, const std::vector<TopWord>& words) {
    const float em = ui.em;
    float y = std::round(r.y0 + 0.95F * em);
    const Document& document = studio.document();
    const std::string name = name_shown();
    float x = r.x0 + 0.6F * em;
    if (word(ui, "‹ plans", x, y, false, nullptr, "first page"))
        wants_to_leave = true;
    const float room = name_room(ui, r.width());
    write_within(ui, x + 0.5F * em, y, room, ui.theme.ink, name + (document.changed() ? " · edited" : ""), ui.strong);
    x = std::max(x + 0.5F * em + std::min(room, text_width(ui, name + " · edited", ui.strong)) + 1.2F * em, r.x0 + 7 * em);
    for (const TopWord& w : words) {
        const char* hint = w.what ? key_of(*w.what) : nullptr;
        const float wide = width_of(ui, w.label, hint);
        if (x + wide > r.x1 - 0.5F * em) {
            x = r.x0 + 0.6F * em;
            y += std::round(1.85F * em);
        }
        if (w.gap)
            x += 0.6F * em;
        if (!word(ui, w.label, x, y, w.on, hint, w.name))
            continue;
        if (!w.what) {
            slip = slip == Slip::sheet ? Slip::none : Slip::sheet;
            slip_scroll_ = {};
        } else if (*w.what == Do::in_class || *w.what == Do::keys)
            asks_for = w.what;
        else
            obey(*w.what);
    }
    fill(ui, {r.x0, r.y1 - 1, r.x1, r.y1}, ui.theme.rule);
}

void Desk::draw_problems(Ui& ui, const Rect& r) {
    const float em = ui.em, width = std::min(46 * em, r.width() - 4 * em);
    float x = r.x0 + 2 * em, y = r.y0 + 2 * em;
    write(ui, x, y, ui.theme.ink, "This plan can't be read yet", ui.title);
    y += 2.6F * em;
    y += write_wrapped(ui, x, y, width, ui.theme.quiet, "Mend it in an editor, save, and read it again:") + em;
    for (const grid::Problem& p : studio.document().problems()) {
        y += write_wrapped(ui, x, y, width, ui.theme.warning, p.line()) + 0.6F * em;
        if (y > r.y1 - 5 * em)
            break;
    }
    y += em;
    if (button(ui, "Read again", x, y, true))
        obey(Do::read_again);
    write(ui, x, y + 0.4F * em, ui.theme.quiet, key_of(Do::read_again), ui.small);
}

} // namespace tidemark::viewer
