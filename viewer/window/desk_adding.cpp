// An act is added: the slip beside the sheet, its place chosen on the sheet.
#include <fmt/format.h>

#include <algorithm>

#include "viewer/window/attempt.h"
#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::add_act() {
    const auto plan = studio.document().plan();
    if (!plan || !studio.document().problems().empty())
        return say("The plan has to be mended first.", true);
    const int last = static_cast<int>(plan->steps.size()) - 1, after = act >= 0 ? act : last;
    form_.begin(after);
    if (const int area = plan->steps[static_cast<std::size_t>(after)].area(); area >= 0)
        form_.choose_area(plan->areas[static_cast<std::size_t>(area)].name);
    slip = Slip::adding;
    slip_scroll_ = {};
    edge = -1;
}

/// Areas that lie one over the other come one after the other.
void Desk::choose_place(Spot_mm spot) {
    const std::shared_ptr<Run> now = studio.shown(minute_s);
    const std::vector<std::string> here = now ? now->areas_at(spot.x, spot.y) : std::vector<std::string>{};
    if (here.empty())
        return;
    const auto at = std::find(here.begin(), here.end(), form_.area());
    form_.choose_area(at == here.end() || at + 1 == here.end() ? here.front() : *(at + 1));
}

bool Desk::press_mark() {
    if (mark.on() && slip == Slip::adding)
        choose_place(*mark.at());
    return mark.on();
}

void Desk::draw_adding(Ui& ui, const Rect& r) {
    const Document& document = studio.document();
    FormGround g;
    g.ground = {document.text(), document.file(), document.plan()};
    g.revision = document.revision();
    if (g.ground.plan)
        for (const plan::Area& a : g.ground.plan->areas)
            g.areas.push_back(a.name);
    g.where_hint = "Or press it on the sheet.";
    g.minute_s = minute_s;
    g.cautions = &cautions;
    const float foot = r.y1 - form_.foot_height(ui, r.width());
    Column column(ui, {r.x0, r.y0, r.x1, foot}, slip_scroll_);
    float y = column.top();
    y += form_.draw(ui, r.x0, y, r.width(), g) + 0.5F * ui.em;
    column.end(y);
    form_.draw_foot(ui, {r.x0, foot, r.x1, r.y1}, g.ground.plan.get());
    if (form_.take_left())
        slip = Slip::none;
    if (auto added = form_.take())
        attempt(*this, [&] {
            const int step = studio.document().add(*added);
            slip = Slip::none;
            choose_act(step);
            say("Added: " + studio.document().plan()->steps[static_cast<std::size_t>(step)].name);
        });
}

} // namespace tidemark::viewer
