// What there is to read beside the sheet: how far it is, what is under the pointer, the edges.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

namespace {

/// As long as anything that is said of how far the sheet is.
constexpr const char* longest_said = "Seen in cells of 8.88 mm, a draft. The fine sheet is at 188:88, about 188 min to go.";

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
    Rect below{x, y, x + width, r.y1 - std::round(0.4F * em)};
    lit_ = -1;
    if (slip == Slip::adding)
        return draw_adding(ui, below);
    below.y1 -= draw_change(ui, x, below.y1, width);
    if (slip == Slip::sheet)
        return draw_sheet_slip(ui, below);
    if (act >= 0)
        return draw_act_slip(ui, below);
    draw_list(ui, below);
}

/// As tall at every moment: what is told here changes by itself, and what lies below must not move under the hand.
float Desk::draw_state(Ui& ui, float x, float y, float width) {
    const float em = ui.em, line = 1.35F * em, top = y;
    const auto draft = studio.draft(), truth = studio.truth();
    const std::shared_ptr<Run> now = seen();
    const float line_tall = wrapped_height(ui, width, "I", ui.small);
    const bool brief = slip == Slip::adding || margin_.height() < 24 * em;
    // A text in the room of so many lines; one that is longer than any foreseen takes what it needs.
    const auto tell = [&](const std::string& text, Colour c, float lines) {
        if (brief)
            write_within(ui, x, y, width, c, text, ui.small);
        const float tall = brief ? line_tall : std::max(lines * line_tall, write_wrapped(ui, x, y, width, c, text, ui.small));
        y += tall + 0.35F * em;
    };
    const bool past = minute_s > strip_.end_s + 1; // the line has no room for the hours in which nothing is seen to move
    write(ui, x, y, ui.theme.ink, past ? "dry" : clock_text(minute_s), ui.title);
    if (past)
        write_within(ui, x + 5.2F * em, y + 0.45F * em, width - 5.2F * em, ui.theme.quiet, "as it stays");
    else if (now && now->progress().acting && following && !now->progress().over())
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
        tell(problems.front().line(), ui.theme.warning, 0);
        float bx = x;
        if (button(ui, "Read again", bx, y))
            obey(Do::read_again);
        y += 2.4F * em;
    }
    const std::shared_ptr<Run>& first = truth ? truth : draft;
    std::string said;
    const bool failed = first && first->progress().is == RunProgress::Is::failed;
    if (failed)
        said = first->progress().problem;
    else if (now) {
        const RunProgress p = now->progress();
        said = fmt::format("Seen in cells of {:.2g} mm{}.", 1e3 * now->cell_m(), now->draft() ? ", a draft" : "");
        if (!p.over() && (!truth || now == truth))
            said = fmt::format("{} painted{}.", now->draft() ? "A draft is being" : "It is being", left_text(p.left_wall_s));
        else if (truth && truth != now && !truth->progress().over())
            said += fmt::format(" The fine sheet is at {}{}.", clock_text(truth->progress().time_s),
                                left_text(truth->progress().left_wall_s));
    }
    tell(said, failed ? ui.theme.warning : ui.theme.quiet, std::round(wrapped_height(ui, width, longest_said, ui.small) / line_tall));
    if (slip != Slip::adding)
        tell(note, note_is_wrong ? ui.theme.warning : ui.theme.ink, 2);
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    return y + 0.7F * em - top;
}

/// At the foot, so that a value that is turned stays where it is; returns its height, 0 when all is kept and saved.
float Desk::draw_change(Ui& ui, float x, float foot, float width) {
    if (!studio.what_if() && !studio.document().changed())
        return 0;
    const float em = ui.em;
    const std::string other = with_before && has_reference() ? "Against the reference" : "Against before"; // what it is compared with next
    float row = 0;
    for (const std::string& word : {std::string("Keep"), std::string("Drop"), other})
        row += text_width(ui, word) + 2.2F * em;
    const bool two_rows = studio.what_if() && row > width;
    const float tall = std::round((two_rows ? 6.8F : 4.6F) * em);
    float y = foot - tall, bx = x;
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    y += std::round(0.6F * em);
    write_within(ui, x, y, width, ui.theme.ink, studio.what_if() ? "Changed since it was kept" : "Kept, not yet in the plan's file", ui.strong);
    y += std::round(1.6F * em);
    if (!studio.what_if()) {
        if (button(ui, "Save", bx, y, true))
            obey(Do::save);
        return tall;
    }
    if (button(ui, "Keep", bx, y, true))
        obey(Do::keep);
    if (button(ui, "Drop", bx, y))
        obey(Do::drop);
    if (two_rows)
        bx = x, y += 2.2F * em;
    if (button(ui, other, bx, y, false, "before"))
        obey(Do::with_before);
    return tall;
}

} // namespace tidemark::viewer
