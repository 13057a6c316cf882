// What is changed by hand: an act, the sheet; and the two questions, where to save and whether to.
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "report/act_text.h"
#include "report/plan_cautions.h"
#include "viewer/window/act_values.h"
#include "viewer/window/attempt.h"
#include "viewer/window/desk.h"

namespace tidemark::viewer {

void Desk::draw_act_slip(Ui& ui, const Rect& r) {
    const auto plan = studio.document().plan();
    if (!plan || act < 0 || act >= static_cast<int>(plan->steps.size()))
        return;
    const float em = ui.em, width = r.width();
    const plan::Step& step = plan->steps[static_cast<std::size_t>(act)];
    Column column(ui, r, slip_scroll_);
    float y = column.top();
    write_within(ui, r.x0, y, width, ui.theme.ink, step.name, ui.strong);
    y += 1.45F * em;
    y += write_wrapped(ui, r.x0, y, width, ui.theme.quiet, report::act_text(*plan, step)) + 0.7F * em;
    if (const StripAct* a = strip_.act(act)) {
        std::string when = fmt::format("{} to {}", clock_text(a->start_s), clock_text(a->end_s));
        if (!a->waited_for.empty() && a->waited_s >= 1)
            when += fmt::format(", after {} of waiting for {}", clock_text(a->waited_s), a->waited_for);
        y += write_wrapped(ui, r.x0, y, width, ui.theme.ink, when) + 0.4F * em;
        float x = r.x0;
        if (button(ui, "30 s sooner", x, y, false, "sooner"))
            obey(Do::act_sooner);
        if (button(ui, "30 s later", x, y, false, "later"))
            obey(Do::act_later);
        y += 2.6F * em;
    }
    for (const ActValue& v : act_values(*plan, act)) {
        const std::string name = v.where + "." + v.key;
        const auto held = turning_.find(name);
        double value = held != turning_.end() ? held->second : v.value;
        bool done = false;
        const std::string shown = value_text(value, v.decimals) + (v.unit.empty() || v.unit == "°" ? "" : " ") + v.unit;
        if (slider(ui, v.label, shown, r.x0, y, width, value, v.lowest, std::max(v.highest, v.value), v.step, done))
            turning_[name] = value;
        if (done && turning_.contains(name)) {
            const double to = turning_[name];
            turning_.erase(name);
            attempt(*this, [&] {
                studio.document().set(v.where, v.key, value_text(to, v.decimals));
                say(fmt::format("{}: {} {}", v.label, value_text(to, v.decimals), v.unit));
            });
        }
        y += slider_height(ui) + 0.5F * em;
    }
    if (const auto d = foretold_.of(plan, act))
        y += write_wrapped(ui, r.x0, y, width, ui.theme.quiet, d->words, ui.body) + 0.6F * em;
    float x = r.x0;
    if (button(ui, "Done", x, y, false, "let go of the act"))
        choose_act(-1);
    if (button(ui, "Leave it out", x, y))
        attempt(*this, [&] {
            const std::string name = step.name;
            studio.document().remove_act(act);
            choose_act(-1);
            say("Left out: " + name);
        });
    y += 2.6F * em;
    x = r.x0;
    if (button(ui, "Add an act after it", x, y))
        add_act();
    y += 2.6F * em;
    column.end(y);
}

void Desk::draw_sheet_slip(Ui& ui, const Rect& r) {
    const auto plan = studio.document().plan();
    if (!plan)
        return;
    const float em = ui.em, width = r.width();
    Column column(ui, r, slip_scroll_);
    float y = column.top();
    write(ui, r.x0, y, ui.theme.ink, fmt::format("A sheet of {:.0f} × {:.0f} mm", 1e3 * plan->width_m, 1e3 * plan->height_m),
          ui.strong);
    y += 1.9F * em;
    float bx = r.x0;
    if (button(ui, "Save the finished sheet", bx, y))
        save_sheet();
    y += 2.7F * em;
    double tilt = turning_.contains("sheet.tilt_deg") ? turning_["sheet.tilt_deg"] : 57.29577951308232 * plan->tilt_rad;
    bool done = false;
    if (slider(ui, "tilt of the board at the start", fmt::format("{:.0f}°", tilt), r.x0, y, width, tilt, 0, 30, 1, done))
        turning_["sheet.tilt_deg"] = tilt;
    if (done && turning_.contains("sheet.tilt_deg")) {
        const std::string to = value_text(turning_["sheet.tilt_deg"], 0);
        turning_.erase("sheet.tilt_deg");
        attempt(*this, [&] { studio.document().set("sheet", "tilt_deg", to), say("tilt: " + to + "°"); });
    }
    y += slider_height(ui) + 0.7F * em;
    const auto choices = [&](const char* heading, const char* key, const std::vector<std::string>& ids, const std::string& is) {
        write(ui, r.x0, y, ui.theme.quiet, heading);
        y += 1.5F * em;
        for (const std::string& id : ids) {
            float x = r.x0 - 0.45F * em;
            if (word(ui, id, x, y, id == is) && id != is)
                attempt(*this, [&] {
                    studio.document().set("sheet", key, id);
                    say(std::string(key) + ": " + id);
                });
            y += 1.6F * em;
        }
        y += 0.6F * em;
    };
    choices("paper", "paper", paper_ids, plan->paper.id);
    choices("room", "room", room_ids, plan->room.id);
    if (const auto concern = report::cautions_for(*plan, cautions); !concern.empty()) {
        for (const materials::Caution& c : concern)
            y += write_wrapped(ui, r.x0, y, width, ui.theme.warning, c.what + ": " + c.text, ui.small) + 0.4F * em;
        y += write_wrapped(ui, r.x0, y, width, ui.theme.quiet, report::who_decides, ui.small) + 0.6F * em;
    }
    column.end(y);
}

void Desk::draw_question(Ui& ui, const Rect& r) {
    const float em = ui.em;
    float x = r.x0, y = r.y0;
    if (slip == Slip::save_as) {
        write(ui, x, y, ui.theme.ink, "Save the plan as", ui.title);
        y += 2.4F * em;
        const bool entered = field(ui, "file", save_name, x, y, r.width());
        y += 2.4F * em;
        y += write_wrapped(ui, x, y, r.width(), ui.theme.quiet,
                           "A .toml file. Masks and pictures that the plan names are copied beside it, unless they lie "
                           "there already.") +
             em;
        const bool pressed = button(ui, "Save", x, y, true);
        if (pressed || entered) {
            if (attempt(*this, [&] {
                    std::filesystem::path file = save_name;
                    if (file.extension() != ".toml")
                        throw grid::BadInput("save as", save_name + " is no plan file's name", "a name that ends in .toml");
                    const auto copied = studio.document().save_as(file);
                    saved_as = file;
                    say(copied.empty() ? "Saved." : fmt::format("Saved, with {} pictures beside it.", copied.size()));
                }))
                slip = Slip::none;
        }
        if (button(ui, "Not now", x, y))
            slip = Slip::none;
        y += 3 * em;
        if (note_is_wrong)
            write_wrapped(ui, r.x0, y, r.width(), ui.theme.warning, note);
        return;
    }
    write(ui, x, y, ui.theme.ink, "The plan was changed", ui.title);
    y += 2.6F * em;
    if (button(ui, "Save and leave", x, y, true)) {
        save();
        if (!studio.document().changed())
            slip = Slip::none, left = true;
    }
    x = r.x0, y += 2.6F * em;
    if (button(ui, "Leave without saving", x, y))
        slip = Slip::none, left = true;
    x = r.x0, y += 2.6F * em;
    if (button(ui, "Stay", x, y))
        slip = Slip::none, wants_to_leave = wants_to_close = false;
}

} // namespace tidemark::viewer
