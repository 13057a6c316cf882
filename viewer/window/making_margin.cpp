// What is done to masses, and the way on.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "viewer/window/attempt.h"
#include "viewer/window/making_page.h"

namespace tidemark::viewer {

float MakingPage::draw_chosen(Ui& ui, float x, float y, float width) {
    const float em = ui.em, top = y;
    const int k = index_of(mass);
    if (k < 0) {
        y += write_wrapped(ui, x, y, width, ui.theme.quiet,
                           "Click a mass to choose it. Then it can be joined with another, parted, made lighter or darker, "
                           "and its edge changed.");
        return y + em - top;
    }
    const reference::Mass& m = found_->masses.list[static_cast<std::size_t>(k)];
    const std::string& named = found_->names[static_cast<std::size_t>(k)];
    write_within(ui, x, y, width, ui.theme.ink, named.empty() ? fmt::format("mass {}", mass) : named, ui.strong);
    y += 1.5F * em;
    write(ui, x, y, ui.theme.quiet,
          fmt::format("L* {:.0f} on the mean, {:.0f} cm²", m.mean_lstar,
                      static_cast<double>(m.pixels) / found_->pixels_per_mm / found_->pixels_per_mm / 100));
    y += 1.9F * em;
    if (field(ui, "name", name_, x, y, width * 0.6F) && !name_.empty())
        making_->name(mass, name_);
    float bx = x + width * 0.6F + 0.6F * em;
    if (button(ui, "Name it", bx, y) && !name_.empty())
        making_->name(mass, name_);
    y += 2.7F * em;
    bx = x;
    const auto push = [&](int by) {
        const int to = m.group + by;
        if (to >= 0 && to < found_->groups.count)
            say(fmt::format("{} now belongs with the next {} group: its tone is the mean of both.", named.empty() ? fmt::format("Mass {}", mass) : named,
                            by > 0 ? "lighter" : "darker"));
        making_->push(mass, by);
    };
    if (button(ui, "Lighter", bx, y))
        push(1);
    if (button(ui, "Darker", bx, y))
        push(-1);
    y += 2.7F * em;
    bx = x - 0.45F * em;
    for (const auto& [does, label] : {std::pair{HandDoes::join, "join with …"}, {HandDoes::part, "part along a line"},
                                      {HandDoes::brush, "brush more of it"}, {HandDoes::draw_round, "draw round more of it"}}) {
        if (word(ui, label, bx, y, hand == does))
            hand = hand == does ? HandDoes::choose : does;
        bx = x - 0.45F * em;
        y += 1.75F * em;
    }
    const char* told = hand == HandDoes::join    ? "Now click the mass it becomes one with."
                       : hand == HandDoes::part  ? "Draw a line across it."
                       : hand == HandDoes::brush ? "What the brush goes over becomes part of it. To take away, choose the "
                                                   "neighbour and brush that."
                       : hand == HandDoes::draw_round ? "What you draw round becomes part of it."
                                                      : "";
    if (*told != 0)
        y += write_wrapped(ui, x, y, width, ui.theme.accent, told) + 0.4F * em;
    if (hand == HandDoes::brush) {
        bool done = false;
        slider(ui, "brush", fmt::format("{:.0f} mm", brush_mm_), x, y, width, brush_mm_, 1, 20, 1, done);
        y += slider_height(ui);
    }
    return y + 0.6F * em - top;
}

void MakingPage::draw_margin(Ui& ui, const Rect& r) {
    const float em = ui.em, x = r.x0 + std::round(1.1F * em), width = r.width() - std::round(2.2F * em);
    const bool slip = adding_ && acting_ && making_->writing() < 0;
    const float foot = slip ? form_->foot_height(ui, width) + std::round(0.4F * em) : foot_height(ui, width);
    Column column(ui, {x, r.y0 + 0.4F * em, x + width, r.y1 - foot}, acting_ ? acts_scroll_ : scroll_);
    float y = column.top() + 0.6F * em;
    y += acting_ ? draw_acts(ui, x, y, width) : draw_masses(ui, x, y, width);
    column.end(y);
    if (!slip)
        return draw_way_on(ui, {x, r.y1 - foot, x + width, r.y1});
    const auto own = making_->acts();
    const auto plan = own ? own->ground().plan : nullptr;
    form_->draw_foot(ui, {x, r.y1 - foot, x + width, r.y1 - std::round(0.4F * em)}, plan.get());
    if (own)
        take_act();
}

/// Lies on the mat, so that nothing moves when it comes or goes.
void MakingPage::draw_note(Ui& ui, const Rect& mat) {
    const std::string& told = making_->problem().empty() ? note_ : making_->problem();
    if (told.empty())
        return;
    const bool wrong = note_is_wrong_ || !making_->problem().empty();
    const float em = ui.em, width = std::min({30 * em, mat.width() - 3 * em, text_width(ui, told) + 1});
    const float tall = wrapped_height(ui, width, told) + em, y1 = mat.y1 - std::round(0.8F * em), x0 = mat.x0 + std::round(0.8F * em);
    fill(ui, {x0, y1 - tall, x0 + width + 1.4F * em, y1}, ui.theme.slip);
    frame(ui, {x0, y1 - tall, x0 + width + 1.4F * em, y1}, ui.theme.rule);
    write_wrapped(ui, x0 + 0.7F * em, y1 - tall + 0.5F * em, width, wrong ? ui.theme.warning : ui.theme.ink, told);
}

float MakingPage::draw_masses(Ui& ui, float x, float y, float width) {
    const float em = ui.em, top = y;
    write(ui, x, y, ui.theme.quiet, "value groups");
    float bx = x + 7 * em;
    for (int n = 2; n <= 5; ++n)
        if (word(ui, std::to_string(n), bx, y, making_->groups() == n, nullptr, fmt::format("{} groups", n)))
            making_->set_groups(n);
    y += 2 * em;
    double simplify = turning_mm_ > 0 ? turning_mm_ : simplify_mm_;
    bool done = false;
    if (slider(ui, "no shape finer than", fmt::format("{:.1f} mm", simplify), x, y, width, simplify, 0.5, 8, 0.5, done))
        turning_mm_ = simplify;
    if (done && turning_mm_ > 0) {
        simplify_mm_ = std::exchange(turning_mm_, 0);
        making_->set_simplify(simplify_mm_);
    }
    y += slider_height(ui) + 0.4F * em;
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    y += 0.8F * em;
    y += draw_chosen(ui, x, y, width);
    return y - top;
}

namespace {

constexpr const char *draft_it = "Draft it for me", *my_acts = "My own acts …";

float button_width(const Ui& ui, const std::string& label, bool strong) { return text_width(ui, label, strong ? ui.strong : ui.body) + 1.6F * ui.em; }

bool side_by_side(const Ui& ui, float width) { return button_width(ui, draft_it, true) + 0.6F * ui.em + button_width(ui, my_acts, false) <= width; }

} // namespace

float MakingPage::foot_height(const Ui& ui, float width) const { return std::round((side_by_side(ui, width) ? 8.2F : 10.8F) * ui.em); }

void MakingPage::draft() {
    asks_about_acts_ = false;
    attempt(*this, [&] {
        making_->write_plan(folder_);
        drafted = true;
        written_ = adding_ = false;
    });
}

/// The foot: where the plan goes, and the two roads to it.
void MakingPage::draw_way_on(Ui& ui, const Rect& r) {
    const float em = ui.em, x = r.x0;
    float y = r.y0, bx = x;
    fill(ui, {x, y, r.x1, y + 1}, ui.theme.rule);
    y += 0.7F * em;
    if (making_->writing() >= 0) {
        write(ui, x, y, ui.theme.quiet, "The plan is being written …");
        y += 1.7F * em;
        fill(ui, {x, y + 0.6F * em, r.x1, y + 0.8F * em}, ui.theme.rule);
        fill(ui, {x, y + 0.6F * em, x + r.width() * static_cast<float>(std::min(1.0, making_->writing())), y + 0.8F * em},
             ui.theme.accent);
        return;
    }
    const std::size_t acts = own_acts();
    asks_about_acts_ = asks_about_acts_ && acts > 0 && !acting_;
    if (asks_about_acts_) {
        const std::string told = acts == 1 ? "Your act is not in the draft." : fmt::format("Your {} acts are not in the draft.", acts);
        y += write_wrapped(ui, x, y, r.width(), ui.theme.ink, told, ui.strong) + 0.6F * em;
        if (button(ui, acts == 1 ? "Draft without it" : "Draft without them", bx, y, false, "Draft without"))
            draft();
        y += 2.5F * em, bx = x;
        if (button(ui, "Back to my acts", bx, y, true))
            asks_about_acts_ = false, turn_to_acts();
        return;
    }
    const std::string earlier = "open " + earlier_.parent_path().filename().string();
    float ex = r.x1 - text_width(ui, earlier, ui.strong) - 0.45F * em;
    if (earlier_.empty() || ex > x + text_width(ui, "the plan's folder") + em)
        write(ui, x, y, ui.theme.quiet, "the plan's folder");
    if (ex = std::max(ex, x - 0.45F * em); !earlier_.empty() && word(ui, earlier, ex, y, false, nullptr, "open the earlier plan"))
        drafted = false, goes_on = earlier_;
    y += 1.6F * em;
    field(ui, "folder", folder_, x, y, r.width());
    y += 2.6F * em;
    if (acting_) {
        if (acts > 0 && button(ui, "Make the plan of my acts", bx, y, true))
            attempt(*this, [&] {
                making_->write_acts(folder_);
                drafted = false;
                written_ = adding_ = false;
            });
        return;
    }
    if (!found_)
        return;
    if (button(ui, draft_it, bx, y, acts == 0)) {
        asks_about_acts_ = acts > 0;
        if (!asks_about_acts_)
            draft();
    }
    if (!side_by_side(ui, r.width()))
        bx = x, y += 2.6F * em;
    if (button(ui, acts > 0 ? fmt::format("My own acts: {}", acts) : my_acts, bx, y, acts > 0, "my own acts"))
        turn_to_acts();
}

} // namespace tidemark::viewer
