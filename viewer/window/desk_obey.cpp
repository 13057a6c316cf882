#include <algorithm>

#include "viewer/window/attempt.h"
#include "viewer/window/desk.h"

namespace tidemark::viewer {

namespace {

constexpr double small_step_s = 15, act_step_s = 30;
constexpr float curtain_step = 0.05F;

} // namespace

bool Desk::obey(Do what) {
    if (!is_open()) {
        wants_to_leave = what == Do::start_page || what == Do::let_go;
        return wants_to_leave;
    }
    Document& document = studio.document();
    const float pan = view.pane().width() / 8;
    const auto show = [&](LookKind kind) {
        look = kind;
        if (compare == Compare::difference)
            compare = Compare::alone;
    };
    const bool has_other = has_reference() || studio.what_if();
    switch (what) {
    case Do::look_now: show(LookKind::now); break;
    case Do::look_dried: show(LookKind::dried); break;
    case Do::look_values: show(LookKind::values); break;
    case Do::look_groups: show(LookKind::groups); break;
    case Do::look_water: show(LookKind::water); break;
    case Do::compare:
        if (!has_other) {
            say("This plan names no reference to compare with.");
            break;
        }
        compare = compare == Compare::alone     ? Compare::beside
                  : compare == Compare::beside  ? Compare::curtain
                  : compare == Compare::curtain ? Compare::difference
                                                : Compare::alone;
        if (!has_reference())
            with_before = true;
        break;
    case Do::with_before:
        if (!studio.what_if()) {
            say("Nothing has been changed yet: before and after are the same.");
            break;
        }
        with_before = !with_before || !has_reference();
        if (with_before && compare == Compare::alone)
            compare = Compare::curtain;
        break;
    case Do::edges: edges_shown = !edges_shown; break;
    case Do::glass: glass_on = !glass_on; break;
    case Do::mark: mark.turn(view); break;
    case Do::add_act: add_act(); break;
    case Do::play:
        if (minute_s >= strip_.reached_s - 1 && !studio.busy())
            go_to(0);
        playing = !playing;
        following = false;
        break;
    case Do::pace_1: pace = 1, playing = true, following = false; break;
    case Do::pace_10: pace = 10, playing = true, following = false; break;
    case Do::pace_60: pace = 60, playing = true, following = false; break;
    case Do::earlier: go_to(minute_s - small_step_s); break;
    case Do::later: go_to(minute_s + small_step_s); break;
    case Do::act_before: step_act(-1); break;
    case Do::act_after: step_act(1); break;
    case Do::to_start: go_to(0); break;
    case Do::to_end:
        go_to(strip_.reached_s);
        following = true;
        break;
    case Do::fit: view.fit(); break;
    case Do::as_on_paper: view.zoom_to(screen_px_mm); break;
    case Do::closer: view.zoom(1.25, view.pane().middle_x(), view.pane().middle_y()); break;
    case Do::farther: view.zoom(0.8, view.pane().middle_x(), view.pane().middle_y()); break;
    case Do::pan_left: view.pan(pan, 0); break;
    case Do::pan_right: view.pan(-pan, 0); break;
    case Do::pan_up: view.pan(0, pan); break;
    case Do::pan_down: view.pan(0, -pan); break;
    case Do::curtain_left: curtain = std::max(0.0F, curtain - curtain_step); break;
    case Do::curtain_right: curtain = std::min(1.0F, curtain + curtain_step); break;
    case Do::act_sooner:
    case Do::act_later:
        if (const StripAct* a = strip_.act(act))
            move_act(act, a->start_s + (what == Do::act_later ? act_step_s : -act_step_s));
        else
            say("Choose an act first: press , or . or click one on the minute line.");
        break;
    case Do::let_go:
        if (slip != Slip::none)
            slip = Slip::none;
        else if (mark.on())
            mark.take_off();
        else if (edge >= 0) // it had led to its place: back again
            edge = -1, view.fit();
        else if (act >= 0)
            act = -1;
        else
            view.fit();
        break;
    case Do::keep:
        if (studio.what_if()) {
            studio.keep();
            with_before = false;
            say("Kept. Save writes it to the plan's file.");
        }
        break;
    case Do::drop:
        if (studio.what_if()) {
            studio.drop();
            with_before = false;
            say("Dropped: the plan is as it was kept.");
        }
        break;
    case Do::undo:
        if (document.can_undo()) {
            const std::string label = document.undo_label();
            document.undo();
            say("Undone: " + label);
        }
        break;
    case Do::redo:
        if (document.can_redo()) {
            const std::string label = document.redo_label();
            document.redo();
            say("Again: " + label);
        }
        break;
    case Do::save: save(); break;
    case Do::save_as:
        slip = Slip::save_as;
        save_name = document.file().string();
        break;
    case Do::save_sheet: save_sheet(); break;
    case Do::read_again:
        if (attempt(*this, [&] { studio.read_again_later(); }))
            say("Reading the plan again …");
        break;
    case Do::start_page: wants_to_leave = true; break;
    default: return false;
    }
    return true;
}

} // namespace tidemark::viewer
