#include "viewer/window/start_page.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <fstream>

#include "plan/lesson.h"

namespace tidemark::viewer {

namespace {

namespace fs = std::filesystem;

/// The first comment of a plan says what it is, as far as its first stop.
std::string first_comment(const fs::path& plan) {
    std::ifstream in(plan);
    std::string text;
    for (std::string line; std::getline(in, line) && line.starts_with("#");) {
        const auto begin = line.find_first_not_of("# ");
        if (begin != std::string::npos)
            text.append(text.empty() ? "" : " ").append(line, begin);
    }
    const auto stop = text.find_first_of(".:;,");
    return stop == std::string::npos ? text : text.substr(0, stop);
}

} // namespace

void StartPage::look(const fs::path& presets) {
    demos.clear();
    lessons.clear();
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(presets / "plans", error)) {
        if (!fs::exists(entry.path() / "plan.toml", error))
            continue;
        Card card;
        card.line = {entry.path().filename().string(), first_comment(entry.path() / "plan.toml"), entry.path() / "plan.toml"};
        for (const char* name : {"sheet.png", "sheet.jpg"})
            try {
                if (fs::exists(entry.path() / "pictures" / name, error))
                    card.picture = grid::read_picture(entry.path() / "pictures" / name);
            } catch (const std::exception&) {
                // A card without its picture still opens.
            }
        demos.push_back(std::move(card));
    }
    std::sort(demos.begin(), demos.end(), [](const Card& a, const Card& b) { return a.line.title < b.line.title; });
    try {
        for (const plan::Lesson& lesson : plan::read_lessons(presets / "lessons"))
            lessons.push_back({lesson.name(), lesson.title, lesson.folder});
    } catch (const std::exception&) {
        // A lesson that can't be read is told of when it is asked for by name; the page opens all the same.
    }
}

float StartPage::draw_card(Ui& ui, SDL_Renderer* renderer, Card& card, float x, float y, float width) {
    const float em = ui.em;
    float tall = 0;
    if (card.picture.width > 0) {
        const int w = static_cast<int>(width), h = std::max(1, static_cast<int>(std::lround(
                                                                    width * card.picture.height / card.picture.width)));
        if (card.width != w || card.height != h) {
            const grid::Picture fitted = grid::resized(card.picture, w, h);
            Canvas canvas;
            canvas.size(w, h, rgb(0xFFFFFF));
            for (std::size_t k = 0; k < canvas.px.size(); ++k)
                canvas.px[k] = rgb(static_cast<unsigned>(fitted.rgb[3 * k]) << 16 |
                                   static_cast<unsigned>(fitted.rgb[3 * k + 1]) << 8 | fitted.rgb[3 * k + 2]);
            card.shown.take(renderer, canvas);
            card.width = w, card.height = h;
        }
        tall = static_cast<float>(h);
    }
    const Rect r{x, y, x + width, y + tall + 1.9F * em};
    const Press p = press(ui, card.line.title, r);
    if (p.hovered || p.held)
        fill(ui, {r.x0 - 0.4F * em, r.y0 - 0.4F * em, r.x1 + 0.4F * em, r.y1}, ui.theme.hover);
    if (tall > 0)
        ui.paint->AddImage(card.shown.texture(), ImVec2(std::floor(x), std::floor(y)),
                           ImVec2(std::floor(x) + static_cast<float>(card.width), std::floor(y) + tall));
    const float end = write(ui, x, y + tall + 0.5F * em, ui.theme.accent, card.line.title, ui.strong) + 0.8F * em;
    write_within(ui, end, y + tall + 0.5F * em, r.x1 - end, ui.theme.quiet, card.line.about);
    if (p.focused)
        focus_ring(ui, r);
    if (p.pressed)
        wants = card.line.path;
    return r.height() + em;
}

/// A place for a photograph, told apart by its broken line.
float StartPage::draw_drop(Ui& ui, const Rect& r) {
    const float em = ui.em, dash = 0.6F * em, thick = 2;
    for (float x = r.x0; x < r.x1; x += 2 * dash) {
        fill(ui, {x, r.y0, std::min(x + dash, r.x1), r.y0 + thick}, ui.theme.quiet);
        fill(ui, {x, r.y1 - thick, std::min(x + dash, r.x1), r.y1}, ui.theme.quiet);
    }
    for (float at = r.y0; at < r.y1; at += 2 * dash) {
        fill(ui, {r.x0, at, r.x0 + thick, std::min(at + dash, r.y1)}, ui.theme.quiet);
        fill(ui, {r.x1 - thick, at, r.x1, std::min(at + dash, r.y1)}, ui.theme.quiet);
    }
    const float x = r.x0 + 1.2F * em;
    write(ui, x, r.y0 + 1.1F * em, ui.theme.ink, "Drop a photograph here", ui.strong);
    write_within(ui, x, r.y0 + 2.6F * em, r.width() - 2.4F * em, ui.theme.quiet,
                 "or a plan, a lesson's folder, a finished run. Or type where it is:", ui.small);
    const float w = text_width(ui, "Open") + 1.6F * em;
    const bool entered = field(ui, "path", typed, x, r.y0 + 4.3F * em, r.width() - 3 * em - w);
    float bx = r.x1 - 1.2F * em - w;
    if ((button(ui, "Open", bx, r.y0 + 4.3F * em) || entered) && !typed.empty())
        wants = typed;
    return r.height();
}

float StartPage::draw_lines(Ui& ui, const char* heading, const std::vector<Line>& list, float x, float y, float width) {
    if (list.empty())
        return 0;
    const float em = ui.em, top = y;
    write(ui, x, y, ui.theme.quiet, heading);
    y += 1.7F * em;
    for (const Line& line : list) {
        const Rect r{x - 0.5F * em, y - 0.3F * em, x + width, y + 1.4F * em};
        const Press p = press(ui, line.title, r);
        if (p.hovered || p.held)
            fill(ui, r, ui.theme.hover);
        const float end = write(ui, x, y, ui.theme.accent, line.title, ui.strong) + 0.8F * em;
        write_within(ui, end, y, r.x1 - end - 0.4F * em, ui.theme.quiet, line.about);
        if (p.focused)
            focus_ring(ui, r);
        if (p.pressed)
            wants = line.path;
        y += 1.75F * em;
    }
    return y + 1.1F * em - top;
}

void StartPage::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all, const std::string& note, bool note_is_wrong) {
    const float em = ui.em;
    fill(ui, all, ui.theme.ground);
    const float side = std::max(2 * em, std::max(0.08F * all.width(), (all.width() - 72 * em) / 2));
    const float left = std::round(all.x0 + side), right = std::round(all.x1 - side), gap = 3.5F * em;
    const bool narrow = right - left < 44 * em;
    const float width = narrow ? right - left : std::floor((right - left - gap) / 2);
    if (ImGui::GetIO().MouseWheel != 0)
        scroll = std::max(0.0F, scroll - 3 * em * ImGui::GetIO().MouseWheel);
    float y = std::round(all.y0 + 0.07F * all.height() - scroll);
    write(ui, left, y, ui.theme.ink, "tidemark", ui.title);
    y += 2.3F * em;
    y += write_wrapped(ui, left, y, right - left, ui.theme.quiet,
                       "Rehearse a watercolour before it is painted: lay the washes on a simulated sheet, see how they dry, "
                       "move a minute and see again.") +
         1.4F * em;
    if (!note.empty())
        y += write_wrapped(ui, left, y, right - left, note_is_wrong ? ui.theme.warning : ui.theme.ink, note) + em;
    for (const Recovered& r : left_over) {
        y += write_wrapped(ui, left, y, right - left, ui.theme.warning,
                           fmt::format("{} was changed and not saved when the program last ended.", r.plan_file.string())) +
             0.4F * em;
        float x = left;
        if (button(ui, "Open what was kept of it", x, y, true, "recover " + r.plan_file.string()))
            recovers = r;
        if (button(ui, "Throw it away", x, y, false, "throw away " + r.plan_file.string()))
            throws_away = r;
        y += 3 * em;
    }
    float first = y, second = y;
    first += draw_drop(ui, {left, first, left + width, first + 7.2F * em}) + 2 * em;
    first += draw_lines(ui, "Lately", recent, left, first, width);
    first += draw_lines(ui, "Lessons: one effect of water, seen before it is explained", lessons, left, first, width);
    float& under = narrow ? first : second;
    const float x2 = narrow ? left : left + width + gap;
    if (!demos.empty()) {
        write(ui, x2, under, ui.theme.quiet, "Paintings planned to the end");
        under += 1.9F * em;
    }
    for (Card& card : demos) {
        // Both in sight at once on a usual screen.
        const float fits = (all.height() - 12 * em) / static_cast<float>(demos.size()) - 3.5F * em;
        const float shape = card.picture.height > 0
                                ? static_cast<float>(card.picture.width) / static_cast<float>(card.picture.height)
                                : 1.4F;
        under += draw_card(ui, renderer, card, x2, under, std::floor(std::clamp(fits * shape, 12 * em, width)));
    }
    const float foot = std::max(std::max(first, second), all.y1 - 2.6F * em);
    write(ui, left, foot, ui.theme.quiet, "F1 lists the keys · Ctrl + and Ctrl - change the size of the text · l: light or dark",
          ui.small);
    scroll = std::min(scroll, std::max(0.0F, std::max(first, second) + scroll - all.y1 + 3 * em));
}

} // namespace tidemark::viewer
