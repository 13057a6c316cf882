#include "viewer/window/start_page.h"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
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
    for (const auto& entry : fs::directory_iterator(presets / "plans", error))
        if (fs::exists(entry.path() / "plan.toml", error))
            demos.push_back({entry.path().filename().string(), first_comment(entry.path() / "plan.toml"),
                             entry.path() / "plan.toml"});
    std::sort(demos.begin(), demos.end(), [](const Line& a, const Line& b) { return a.title < b.title; });
    try {
        for (const plan::Lesson& lesson : plan::read_lessons(presets / "lessons"))
            lessons.push_back({lesson.name(), lesson.title, lesson.folder});
    } catch (const std::exception&) {
        // A lesson that can't be read is told of when it is asked for by name; the page opens all the same.
    }
}

void StartPage::draw(Ui& ui, const Rect& all, const std::string& note, bool note_is_wrong) {
    const float em = ui.em;
    fill(ui, all, ui.theme.ground);
    const float left = std::round(all.x0 + std::max(2 * em, 0.09F * all.width())),
                right = std::round(all.x1 - std::max(2 * em, 0.09F * all.width()));
    const float gap = 3.5F * em, column = std::floor((right - left - gap) / 2);
    const bool narrow = column < 20 * em;
    const float width = narrow ? right - left : column;
    if (ImGui::GetIO().MouseWheel != 0)
        scroll = std::max(0.0F, scroll - 3 * em * ImGui::GetIO().MouseWheel);
    float y = std::round(all.y0 + 0.07F * all.height() - scroll);
    write(ui, left, y, ui.theme.ink, "tidemark", ui.title);
    y += 2.3F * em;
    y += write_wrapped(ui, left, y, right - left, ui.theme.quiet,
                       "Rehearse a watercolour before it is painted: lay the washes on a simulated sheet, see how they dry, "
                       "move a minute and see again.") +
         1.2F * em;
    if (!note.empty())
        y += write_wrapped(ui, left, y, right - left, note_is_wrong ? ui.theme.warning : ui.theme.ink, note) + em;
    for (const Recovered& r : left_over) {
        float x = left;
        write_wrapped(ui, left, y, right - left, ui.theme.warning,
                      fmt::format("{} was changed and not saved when the program last ended.", r.plan_file.string()));
        y += 1.6F * em;
        if (button(ui, "Open what was kept of it", x, y, true, "recover " + r.plan_file.string()))
            recovers = r;
        if (button(ui, "Throw it away", x, y, false, "throw away " + r.plan_file.string()))
            throws_away = r;
        y += 3 * em;
    }
    // A place for a photograph, told apart by its broken line.
    const Rect drop{left, y, left + width, y + 7.2F * em};
    const float dash = 0.6F * em, thick = 2;
    for (float x = drop.x0; x < drop.x1; x += 2 * dash) {
        fill(ui, {x, drop.y0, std::min(x + dash, drop.x1), drop.y0 + thick}, ui.theme.quiet);
        fill(ui, {x, drop.y1 - thick, std::min(x + dash, drop.x1), drop.y1}, ui.theme.quiet);
    }
    for (float at = drop.y0; at < drop.y1; at += 2 * dash) {
        fill(ui, {drop.x0, at, drop.x0 + thick, std::min(at + dash, drop.y1)}, ui.theme.quiet);
        fill(ui, {drop.x1 - thick, at, drop.x1, std::min(at + dash, drop.y1)}, ui.theme.quiet);
    }
    write(ui, drop.x0 + 1.2F * em, drop.y0 + 1.1F * em, ui.theme.ink, "Drop a photograph here", ui.strong);
    write_within(ui, drop.x0 + 1.2F * em, drop.y0 + 2.5F * em, drop.width() - 2.4F * em, ui.theme.quiet,
                 "or a plan, a lesson's folder, a finished run; or type where it is:", ui.small);
    const bool entered = field(ui, "path", typed, drop.x0 + 1.2F * em, drop.y0 + 4.2F * em, drop.width() - 8.2F * em);
    float bx = drop.x1 - 6.4F * em;
    if ((button(ui, "Open", bx, drop.y0 + 4.2F * em) || entered) && !typed.empty())
        wants = typed;
    const auto lines = [&](const char* heading, const std::vector<Line>& list, float x, float& at) {
        if (list.empty())
            return;
        write(ui, x, at, ui.theme.quiet, heading, ui.small);
        at += 1.5F * em;
        for (const Line& line : list) {
            const Rect r{x - 0.5F * em, at - 0.25F * em, x + width, at + 1.35F * em};
            const Press p = press(ui, line.title, r);
            if (p.hovered || p.held)
                fill(ui, r, ui.theme.hover);
            const float end = write(ui, x, at, ui.theme.accent, line.title, ui.strong) + 0.8F * em;
            write_within(ui, end, at, r.x1 - end - 0.4F * em, ui.theme.quiet, line.about);
            if (p.focused)
                focus_ring(ui, r);
            if (p.pressed)
                wants = line.path;
            at += 1.75F * em;
        }
        at += 1.1F * em;
    };
    float first = drop.y1 + 2 * em, second = y;
    lines("Paintings planned to the end", demos, left, first);
    float& under = narrow ? first : second;
    const float x2 = narrow ? left : left + column + gap;
    lines("Lessons", lessons, x2, under);
    lines("Lately", recent, narrow ? left : left, first);
    float kx = left - 0.45F * em;
    const float foot = std::max(std::max(first, second), all.y1 - 2.6F * em - scroll * 0);
    write(ui, kx + 0.45F * em, foot, ui.theme.quiet, "F1 lists the keys · Ctrl + and - change the size of the text · l: light or dark",
          ui.small);
    scroll = std::min(scroll, std::max(0.0F, std::max(first, second) + scroll - all.y1 + 3 * em));
}

} // namespace tidemark::viewer
