// Acts of one's own on the masses: listed, put together on a slip, left out again.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/act_text.h"
#include "viewer/window/attempt.h"
#include "viewer/window/making_page.h"

namespace tidemark::viewer {

void MakingPage::turn_to_acts() {
    if (!found_)
        return;
    acting_ = true;
    hand = HandDoes::choose;
    stroke_.clear();
    making_->begin_acts(*presets_);
    ++edition_;
}

/// In these masses; none: the whole sheet.
void MakingPage::begin_act(std::vector<int> masses) {
    const auto own = making_->acts();
    if (!own || making_->writing() >= 0)
        return;
    const auto plan = own->ground().plan;
    form_->begin(plan ? static_cast<int>(plan->steps.size()) - 1 : -1);
    acted_ = std::move(masses);
    adding_ = true;
    act_ = -1;
    place_act();
    ++edition_;
}

void MakingPage::take_act_in(int number) {
    if (number == 0)
        return;
    if (!adding_)
        return begin_act({number});
    const auto at = std::find(acted_.begin(), acted_.end(), number);
    if (at == acted_.end())
        acted_.push_back(number);
    else
        acted_.erase(at);
    place_act();
    ++edition_;
}

void MakingPage::place_act() {
    const auto own = making_->acts();
    if (!own || !adding_)
        return;
    attempt(*this, [&] {
        if (acted_.empty())
            return form_->choose_area("");
        const NewArea area = own->area_of(*found_, acted_);
        const auto plan = own->ground().plan;
        const bool known = plan && plan->area_index(area.name) >= 0;
        form_->choose_area(area.name, known ? std::nullopt : std::optional(area));
    });
}

float MakingPage::draw_acts(Ui& ui, float x, float y, float width) {
    const float em = ui.em, top = y;
    const auto own = making_->acts();
    if (!own || making_->writing() >= 0)
        return write_wrapped(ui, x, y, width, ui.theme.quiet, "A moment …") + em;
    const Ground ground = own->ground();
    for (const grid::Problem& p : own->problems())
        y += write_wrapped(ui, x, y, width, ui.theme.warning, p.what) + 0.4F * em;
    if (ground.plan)
        for (int k = 0; k < static_cast<int>(ground.plan->steps.size()); ++k)
            y += draw_act_row(ui, *ground.plan, k, x, y, width);
    else
        y += write_wrapped(ui, x, y, width, ui.theme.quiet,
                           "No act yet. Press a mass, or several, and say what the hand does there.") + 0.6F * em;
    y += 0.4F * em;
    if (!adding_) {
        float bx = x;
        if (button(ui, "Add an act", bx, y))
            begin_act(mass != 0 ? std::vector<int>{mass} : std::vector<int>{});
        return y + 2.8F * em - top;
    }
    fill(ui, {x, y, x + width, y + 1}, ui.theme.rule);
    y += 0.9F * em;
    FormGround g;
    g.ground = ground, g.revision = own->revision();
    g.areas_by_hand = true;
    g.where_hint = "Press masses to take them in or leave them out; none is the whole sheet.";
    if (const int k = acted_.size() == 1 ? index_of(acted_.front()) : -1; k >= 0) {
        const double lstar = found_->masses.list[static_cast<std::size_t>(k)].mean_lstar, in_key = own->lstar_in_key(lstar);
        if (std::abs(in_key - lstar) >= 1)
            g.where_hint += fmt::format(" Its L* {:.0f} is {:.0f} in the reference, brought to where paint reaches.", lstar, in_key);
    }
    g.cautions = &cautions;
    y += form_->draw(ui, x, y, width, g);
    return y - top;
}

/// What was put together, when its button was pressed.
void MakingPage::take_act() {
    if (form_->take_left())
        adding_ = false, acted_.clear(), ++edition_;
    if (auto added = form_->take())
        attempt(*this, [&] {
            making_->acts()->add(*added);
            adding_ = false;
            acted_.clear();
            ++edition_;
            acts_scroll_ = {};
            note_.clear();
        });
}

float MakingPage::draw_act_row(Ui& ui, const plan::Plan& plan, int step, float x, float y, float width) {
    const float em = ui.em, top = y;
    const plan::Step& s = plan.steps[static_cast<std::size_t>(step)];
    const Rect row{x - 0.4F * em, y, x + width + 0.4F * em, y + std::round(1.6F * em)};
    const Press p = press(ui, fmt::format("act {}: {}", step + 1, s.name), row);
    if (p.hovered || act_ == step)
        fill(ui, row, ui.theme.hover);
    if (p.pressed)
        act_ = act_ == step ? -1 : step;
    write_within(ui, x, y + 0.25F * em, width, ui.theme.ink, fmt::format("{}  {}", step + 1, s.name), act_ == step ? ui.strong : ui.body);
    if (p.focused)
        focus_ring(ui, {row.x0 + 3, row.y0 + 3, row.x1 - 3, row.y1 - 3});
    y = row.y1;
    if (act_ != step)
        return y - top;
    y += 0.3F * em;
    y += write_wrapped(ui, x, y, width, ui.theme.quiet, report::act_text(plan, s)) + 0.5F * em;
    float bx = x;
    if (button(ui, "Leave it out", bx, y))
        attempt(*this, [&] {
            making_->acts()->take_out(step);
            act_ = -1;
        });
    return y + 2.7F * em - top;
}

} // namespace tidemark::viewer
