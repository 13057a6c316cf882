// What events and pages ask of the window.
#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <utility>

#include "viewer/window/app.h"
#include "viewer/window/attempt.h"

namespace tidemark::viewer {

bool App::on_event(const SDL_Event& e) {
    if (news_.is(e)) {
        news_.heard();
        fresh_ = std::max(fresh_, 1);
        return true;
    }
    joint_.on_event(e);
    fresh_ = 3; // ImGui knows in the second frame what the first one hit
    if (e.type == SDL_QUIT) {
        if (page_ == Page::keys)
            go_to(behind_keys_);
        if (desk_.is_open() && !desk_.ask_to_leave()) {
            desk_.wants_to_close = true;
            if (page_ != Page::desk)
                go_to(Page::desk);
        } else
            closing_ = true;
    }
    if (e.type == SDL_DROPFILE) {
        const std::string path = e.drop.file;
        SDL_free(e.drop.file);
        attempt(*this, [&] { open(path); });
    }
    if (e.type == SDL_KEYDOWN) {
        const SDL_Keycode code = e.key.keysym.sym;
        const bool typing = ImGui::GetIO().WantTextInput;
        const bool held = (e.key.keysym.mod & (KMOD_CTRL | KMOD_ALT)) != 0;
        if (code == SDLK_TAB) {
            ImGui::ClearActiveID(); // out of a field
            ui_.focus = ui_.controls.next(ui_.focus, (e.key.keysym.mod & KMOD_SHIFT) != 0);
        } else if (!typing && !held && ui_.focus.empty() && use_mark(code, (e.key.keysym.mod & KMOD_SHIFT) != 0))
            ;
        else if ((code == SDLK_RETURN || code == SDLK_KP_ENTER) && !typing)
            ui_.enter = true;
        else if ((!ui_.focus.empty() || page_ == Page::keys) && !typing && !held && (code == SDLK_UP || code == SDLK_DOWN))
            ui_.nudge += code == SDLK_UP ? 1 : -1;
        else if (!ui_.focus.empty() && !typing && (code == SDLK_PAGEUP || code == SDLK_PAGEDOWN))
            ui_.nudge += code == SDLK_PAGEUP ? 10 : -10;
        else if (typing && code == SDLK_ESCAPE)
            ui_.focus.clear();
        else if (const auto what = command_of(e.key); what && (!typing || held))
            obey(*what);
    }
    return !closing_;
}

/// The arrow keys and Enter, while there is a mark on the sheet.
bool App::use_mark(SDL_Keycode code, bool shift) {
    const bool enter = code == SDLK_RETURN || code == SDLK_KP_ENTER;
    const int dx = code == SDLK_LEFT ? -1 : code == SDLK_RIGHT ? 1 : 0, dy = code == SDLK_UP ? -1 : code == SDLK_DOWN ? 1 : 0;
    if (page_ == Page::making && enter)
        return making_.press_mark();
    if (page_ == Page::desk && enter)
        return desk_.press_mark();
    if ((dx == 0 && dy == 0) || shift)
        return false;
    if (page_ == Page::making)
        return making_.move_mark(dx, dy);
    const bool on = page_ == Page::desk && desk_.mark.on();
    if (on)
        desk_.mark.move(desk_.view, dx, dy);
    return on;
}

void App::obey(Do what) {
    const bool marked = page_ == Page::desk ? desk_.mark.on() : page_ == Page::making && making_.mark.on();
    if (what == Do::mark && !std::exchange(ui_.focus, "").empty() && marked)
        return; // the arrows are the mark's again
    switch (what) {
    case Do::larger_text:
    case Do::smaller_text:
        settings_.text_percent = std::clamp(settings_.text_percent + (what == Do::larger_text ? 10 : -10), 80, 200);
        return remember();
    case Do::surroundings:
        settings_.dark = !settings_.dark;
        ui_.theme = settings_.dark ? dark_theme() : light_theme();
        return remember();
    case Do::keys: return go_to(page_ == Page::keys ? behind_keys_ : Page::keys);
    case Do::close: {
        SDL_Event quit{};
        quit.type = SDL_QUIT;
        on_event(quit);
        return;
    }
    default: break;
    }
    if (page_ == Page::keys && (what == Do::let_go || what == Do::start_page))
        return go_to(behind_keys_);
    if (page_ == Page::desk && what == Do::in_class)
        return begin_class();
    if (page_ == Page::desk)
        desk_.obey(what);
    else if (page_ == Page::classroom)
        classroom_.obey(what);
    else if (page_ == Page::making)
        making_.obey(what);
    else if (page_ == Page::pictures) {
        if (what == Do::look_values || what == Do::look_groups)
            pictures_.greys = !pictures_.greys;
        if (what == Do::fit)
            pictures_.view.fit();
        if (what == Do::closer || what == Do::farther)
            pictures_.view.zoom(what == Do::closer ? 1.25 : 0.8, pictures_.view.pane().middle_x(),
                                pictures_.view.pane().middle_y());
        if (what == Do::let_go || what == Do::start_page)
            pictures_.wants_to_leave = true;
    }
}

void App::begin_class() {
    const std::shared_ptr<Run> now = desk_.is_open() ? desk_.studio.shown(1e9) : nullptr;
    if (!now)
        return;
    std::vector<ClassSheet> sheets;
    if (desk_.studio.what_if())
        if (const auto before = desk_.studio.before(1e9); before && before != now)
            sheets.push_back({before, "before", -1});
    sheets.push_back({now, sheets.empty() ? "" : "after", -1});
    // What matters in a painting of one's own is when the hand has just done something.
    std::vector<double> moments;
    for (const StripAct* a : desk_.strip().in_order())
        moments.push_back(a->end_s);
    std::sort(moments.begin(), moments.end());
    std::vector<double> apart; // of several in one minute the last
    for (std::size_t k = 0; k < moments.size(); ++k)
        if (k + 1 == moments.size() || moments[k + 1] > moments[k] + 60)
            apart.push_back(moments[k]);
    std::string title = desk_.studio.document().file().parent_path().filename().string();
    classroom_.open(title, std::move(sheets), std::move(apart));
    go_to(Page::classroom);
    set_full_screen(true);
}

void App::draw_page() {
    const SDL_Point p = size();
    const Rect all{0, 0, static_cast<float>(p.x), static_cast<float>(p.y)};
    switch (page_) {
    case Page::start: return start_.draw(ui_, renderer_.get(), all, note_, note_is_wrong_);
    case Page::desk: return desk_.draw(ui_, renderer_.get(), all);
    case Page::making: return making_.draw(ui_, renderer_.get(), all);
    case Page::pictures: return pictures_.draw(ui_, renderer_.get(), all);
    case Page::classroom: return classroom_.draw(ui_, renderer_.get(), all);
    case Page::keys: return draw_keys(ui_, all, keys_scroll_);
    }
}

/// What pages left word of, once they have been drawn: a page must not go while it is being drawn.
void App::after_page() {
    if (start_.wants) {
        const auto path = *std::exchange(start_.wants, std::nullopt);
        attempt(*this, [&] {
            open(path);
            note_.clear();
        });
    }
    if (start_.recovers) {
        const Recovered kept = *std::exchange(start_.recovers, std::nullopt);
        attempt(*this, [&] {
            desk_.open(Document(kept.plan_file, kept.text, presets_, from_));
            recovery_.forget(kept);
            go_to(Page::desk);
        });
    }
    if (start_.throws_away) {
        recovery_.forget(*std::exchange(start_.throws_away, std::nullopt));
        start_.left_over = recovery_.left_over();
    }
    if (desk_.asks_for)
        obey(*std::exchange(desk_.asks_for, std::nullopt));
    if (desk_.saved_as) {
        memory_.add_recent(*std::exchange(desk_.saved_as, std::nullopt));
        recovery_.forget(desk_.studio.document());
    }
    if (desk_.wants_to_leave && desk_.slip != Desk::Slip::leaving) {
        if (desk_.ask_to_leave())
            desk_.left = true;
    }
    if (desk_.left) {
        const bool close = desk_.wants_to_close;
        desk_.left = desk_.wants_to_leave = desk_.wants_to_close = false;
        if (desk_.is_open())
            recovery_.forget(desk_.studio.document());
        desk_.close();
        if (close)
            closing_ = true;
        go_to(Page::start);
    }
    if (making_.goes_on) {
        const auto plan = *std::exchange(making_.goes_on, std::nullopt);
        attempt(*this, [&] {
            open(plan);
            if (making_.drafted)
                desk_.say("Drafted for its values; the colours are yours to choose.");
        });
    }
    if (making_.wants_to_leave) {
        making_.wants_to_leave = false;
        go_to(Page::start);
    }
    if (pictures_.wants_to_leave) {
        pictures_.wants_to_leave = false;
        go_to(Page::start);
    }
    if (classroom_.wants_to_leave) {
        classroom_.wants_to_leave = false;
        go_to(classroom_.from_desk ? Page::desk : Page::start);
    }
    if (closing_)
        remember();
}

} // namespace tidemark::viewer
