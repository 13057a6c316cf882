#include "viewer/window/desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "viewer/window/attempt.h"

namespace tidemark::viewer {

namespace {

constexpr double edge_margin = 1.35, least_shown_mm = 60;

} // namespace

const char* word_of(Compare c) {
    switch (c) {
    case Compare::alone: return "alone";
    case Compare::beside: return "beside";
    case Compare::curtain: return "curtain";
    case Compare::difference: return "difference";
    }
    return "";
}

Desk::Desk(const materials::Presets& presets, StudioOptions options) : studio(presets, options), foretold_(options.news), form_(presets, options.news), brushes_(presets.brushes), news_(options.news) {
    for (const materials::Paper& p : presets.papers)
        paper_ids.push_back(p.id);
    for (const materials::Room& room : presets.rooms)
        room_ids.push_back(room.id);
}

void Desk::open(const std::filesystem::path& plan) {
    opened();
    studio.open_later(plan);
}

void Desk::open(Document document) {
    studio.open(std::move(document));
    opened();
}

void Desk::close() {
    studio.close();
    open_ = false;
}

void Desk::opened() {
    open_ = true;
    plan_.reset();
    strip_ = {};
    gathered_ = {};
    edges_.clear();
    ++edges_edition_;
    edges_of_.reset();
    reference_.reset();
    sheet_ = other_ = {};
    through_glass_ = {};
    act = edge = -1;
    minute_s = wanted_s = 0;
    following = true;
    playing = false;
    slip = Slip::none;
    compare = Compare::alone;
    with_before = others_listed = false;
    mark.take_off();
    note.clear();
    view = {};
}

void Desk::say(const std::string& what, bool wrong) { note = what, note_is_wrong = wrong; }

void Desk::go_to(double s) {
    wanted_s = std::clamp(s, 0.0, std::max(strip_.end_s, strip_.reached_s));
    minute_s = std::min(wanted_s, std::max(strip_.reached_s, 0.0));
    following = false;
}

void Desk::choose_act(int step) {
    if (slip == Slip::adding && step >= 0)
        return form_.put_behind(step);
    act = step;
    edge = -1;
    slip = Slip::none;
    slip_scroll_ = {};
    turning_.clear();
}

void Desk::choose_edge(int k) {
    if (k < 0 || k >= static_cast<int>(edges_.size()))
        return;
    edge = k;
    if (k >= static_cast<int>(edges_listed()))
        others_listed = true;
    edges_shown = true;
    const EdgeLine& e = edges_[static_cast<std::size_t>(k)];
    // All of it, with a margin; a short one not nearer than one can tell where on the sheet it is.
    double from = e.middle.x_mm, to = from, top = e.middle.y_mm, foot = top;
    for (const auto& p : e.line)
        from = std::min(from, p.x_mm), to = std::max(to, p.x_mm), top = std::min(top, p.y_mm), foot = std::max(foot, p.y_mm);
    const double pane = static_cast<double>(view.pane().width() / std::max(1.0F, view.pane().height()));
    const double shown_mm = std::max({edge_margin * (to - from), edge_margin * (foot - top) * pane, least_shown_mm});
    view.fit();
    if (static_cast<double>(view.pane().width()) / shown_mm > view.px_per_mm())
        view.look_at({(from + to) / 2, (top + foot) / 2}, shown_mm);
}

void Desk::step_act(int by) {
    const auto acts = strip_.in_order();
    if (acts.empty())
        return;
    const int n = static_cast<int>(acts.size());
    int next = -1;
    for (int k = 0; k < n; ++k)
        if (acts[static_cast<std::size_t>(k)]->step == act)
            next = std::clamp(k + by, 0, n - 1);
    if (next < 0) { // none is chosen: from the minute that is shown
        next = by > 0 ? n - 1 : 0;
        for (int k = 0; k < n; ++k) {
            const double end_s = acts[static_cast<std::size_t>(k)]->end_s;
            if (by > 0 && end_s > minute_s + 0.5) {
                next = k;
                break;
            }
            if (by < 0 && end_s < minute_s - 0.5)
                next = k;
        }
    }
    choose_act(acts[static_cast<std::size_t>(next)]->step);
    go_to(acts[static_cast<std::size_t>(next)]->end_s);
}

void Desk::move_act(int step, double to_s) {
    const auto played = studio.shown(1e9) ? studio.shown(1e9)->acts() : std::vector<ActSpan>{};
    attempt(*this, [&] {
        studio.document().move_act(step, std::max(0.0, std::round(to_s)), played);
        say(fmt::format("{} now begins at {}", studio.document().plan()->steps[static_cast<std::size_t>(step)].name,
                        clock_text(to_s)));
    });
}

void Desk::save() {
    attempt(*this, [&] {
        studio.document().save();
        saved_as = studio.document().file();
        say("Saved.");
    });
}

void Desk::save_sheet() {
    const std::shared_ptr<Run> judged = studio.judged();
    if (saving_.busy())
        return;
    if (!judged || judged->draft() || !judged->outcome() || (studio.truth() && studio.truth() != judged))
        return say("The fine sheet is not finished yet; then it can be saved.");
    say(studio.document().changed() ? "Saving the sheet of the plan as it is here; the plan itself is not saved yet." : "Saving the sheet …");
    saving_.begin(judged->outcome(), brushes_, sheet_folder(studio.document().file()), news_);
}

bool Desk::ask_to_leave() {
    if (!is_open() || !studio.document().changed())
        return true;
    slip = Slip::leaving;
    return false;
}

std::shared_ptr<Run> Desk::seen() const {
    return against_before() && compare != Compare::alone ? studio.compared(minute_s).first : studio.shown(minute_s);
}

void Desk::gather_strip(double dt_s) {
    constexpr double often_s = 0.2;
    const auto judged = studio.judged(), coarse = judged ? judged : studio.draft(), fine = studio.truth();
    const auto over = [](const auto& run) { return run && run->progress().over(); };
    const Gathered now{plan_.get(), coarse.get(), fine.get(), over(coarse), over(fine)};
    since_gathered_s_ += dt_s;
    const bool at_rest = (!coarse || now.coarse_over) && (!fine || now.fine_over);
    if (now == gathered_ && (at_rest || since_gathered_s_ < often_s)) {
        for (const auto& run : {coarse, fine})
            if (run)
                strip_.reached_s = std::max(strip_.reached_s, run->reel().last_s());
        return;
    }
    strip_ = gather(*plan_, coarse.get(), fine.get(), strip_);
    gathered_ = now;
    since_gathered_s_ = 0;
}

void Desk::update(double dt_s) {
    if (!open_)
        return;
    studio.update();
    if (!is_open())
        return;
    if (const auto failed = studio.was_read_again()) {
        if (!failed->empty())
            say(*failed, true);
        else
            say(studio.document().problems().empty() ? "Read again." : "Read again; it still has mistakes.");
    }
    const std::shared_ptr<const plan::Plan> plan = studio.document().plan();
    if (!plan)
        return;
    if (plan != plan_) {
        plan_ = plan;
        std::set<int> places;
        for (const plan::Step& step : plan->steps)
            places.insert(step.area());
        places_ = places.size();
        view.of_sheet(1e3 * plan->width_m, 1e3 * plan->height_m);
        if (act >= static_cast<int>(plan->steps.size()))
            act = -1;
    }
    if (reference_ != studio.reference()) {
        reference_ = studio.reference();
        sheet_.run.reset(), other_.run.reset(); // looked at anew
    }
    const auto judged = studio.judged();
    gather_strip(dt_s);
    const double reached_s = std::max(strip_.reached_s, 0.0);
    if (playing) {
        wanted_s = std::min(minute_s + dt_s * pace, reached_s);
        playing = wanted_s < reached_s || studio.busy();
    } else if (following)
        wanted_s = reached_s;
    minute_s = std::clamp(wanted_s, 0.0, reached_s);
    const std::shared_ptr<const Run> now = seen();
    if (compare == Compare::difference && against_before())
        hold_difference(now, studio.compared(minute_s).second);
    else
        hold(sheet_, now, compare == Compare::difference ? LookKind::difference : look, false);
    if (compare == Compare::beside || compare == Compare::curtain) {
        if (against_before())
            hold(other_, studio.compared(minute_s).second, look, false);
        else
            hold(other_, now, look, true);
    }
    // Edges are those of the finest sheet that is finished.
    const std::shared_ptr<const Outcome> outcome = judged ? judged->outcome() : nullptr;
    if (outcome && outcome != edges_of_) {
        edges_ = edge_lines(*outcome);
        edges_of_ = outcome;
        ++edges_edition_;
        if (edge >= static_cast<int>(edges_.size()))
            edge = -1;
    }
    look_through_glass(now);
    if (const auto saved = saving_.take())
        say(saved->problem.empty() ? "The sheet lies in " + saved->folder.string() : saved->problem, !saved->problem.empty());
}

} // namespace tidemark::viewer
