#include "viewer/window/desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "viewer/window/attempt.h"

namespace tidemark::viewer {

const char* word_of(Compare c) {
    switch (c) {
    case Compare::alone: return "alone";
    case Compare::beside: return "beside";
    case Compare::curtain: return "curtain";
    case Compare::difference: return "difference";
    }
    return "";
}

Desk::Desk(const materials::Presets& presets, StudioOptions options) : studio(presets, options), foretold_(options.news) {
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
    edges_of_.reset();
    reference_.reset();
    reference_of_ = nullptr;
    sheet_ = other_ = {};
    act = edge = -1;
    minute_s = wanted_s = 0;
    following = true;
    playing = false;
    slip = Slip::none;
    compare = Compare::alone;
    with_before = false;
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
    act = step;
    edge = -1;
    slip = Slip::none;
    slip_scroll_ = 0;
    turning_.clear();
}

void Desk::choose_edge(int k) {
    if (k < 0 || k >= static_cast<int>(edges_.size()))
        return;
    edge = k;
    edges_shown = true;
    const EdgeLine& e = edges_[static_cast<std::size_t>(k)];
    double lo = e.middle.x_mm, hi = lo;
    for (const auto& p : e.line)
        lo = std::min(lo, p.x_mm), hi = std::max(hi, p.x_mm);
    view.look_at({e.middle.x_mm, e.middle.y_mm}, std::clamp(2.2 * (hi - lo), 60.0, view.width_mm()));
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

bool Desk::ask_to_leave() {
    if (!is_open() || !studio.document().changed())
        return true;
    slip = Slip::leaving;
    return false;
}

void Desk::hold(Held& held, std::shared_ptr<const Run> run, LookKind kind, bool reference) {
    if (!run)
        return;
    if (kind == LookKind::difference && !reference_)
        kind = LookKind::dried;
    double time_s = reference ? -2 : -1;
    if (!reference) {
        const std::vector<double> times = run->reel().times_s();
        if (times.empty())
            return;
        const auto after = std::upper_bound(times.begin(), times.end(), minute_s + 1e-6);
        time_s = after == times.begin() ? times.front() : *(after - 1);
    }
    if (held.run == run && held.time_s == time_s && held.look == kind && held.reference == reference &&
        held.pixels.width > 0)
        return;
    if (reference) {
        if (!reference_)
            return;
        const auto moment = run->reel().at(0, 0);
        if (!moment)
            return;
        held.pixels = reference_pixels(run->plan(), *reference_, kind, moment->nx, moment->ny);
    } else {
        const auto moment = run->reel().at(time_s, parts_for(kind));
        if (!moment)
            return;
        held.pixels = pixels_of(*moment, kind, {reference_ ? &*reference_ : nullptr});
    }
    held.run = std::move(run), held.time_s = time_s, held.look = kind, held.reference = reference;
    held.edition = ++editions_;
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
    const std::shared_ptr<const plan::Plan> plan = studio.document().plan();
    if (!plan)
        return;
    if (plan != plan_) {
        const bool other_sheet = !plan_ || plan_->width_m != plan->width_m || plan_->height_m != plan->height_m ||
                                 plan_->file != plan->file;
        if (!plan_ || plan_->reference.has_value() != plan->reference.has_value() || other_sheet)
            reference_ = reference_values(*plan);
        plan_ = plan;
        std::set<int> places;
        for (const plan::Step& step : plan->steps)
            places.insert(step.area());
        places_ = places.size();
        view.of_sheet(1e3 * plan->width_m, 1e3 * plan->height_m);
        if (act >= static_cast<int>(plan->steps.size()))
            act = -1;
    }
    const auto draft = studio.draft(), truth = studio.truth();
    const auto judged = studio.judged();
    gather_strip(dt_s);
    const double reached_s = std::max(strip_.reached_s, 0.0);
    if (playing) {
        wanted_s = std::min(minute_s + dt_s * pace, reached_s);
        playing = wanted_s < reached_s || studio.busy();
    } else if (following)
        wanted_s = reached_s;
    minute_s = std::clamp(wanted_s, 0.0, reached_s);
    const std::shared_ptr<const Run> now = studio.shown(minute_s);
    hold(sheet_, now, compare == Compare::difference ? LookKind::difference : look, false);
    if (compare == Compare::beside || compare == Compare::curtain) {
        if (with_before && studio.what_if())
            hold(other_, studio.before(minute_s), look, false);
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
    glass_.reset();
    if (glass_on && pointer_ && now)
        glass_ = under_glass(*now, minute_s, pointer_->x, pointer_->y);
}

std::map<std::string, std::string> Desk::state() const {
    std::map<std::string, std::string> s;
    s["opening"] = opening() ? "yes" : "no";
    if (!is_open())
        return s;
    const Document& document = studio.document();
    s["plan"] = document.file().string();
    s["changed"] = document.changed() ? "yes" : "no";
    s["problems"] = std::to_string(document.problems().size());
    s["can undo"] = document.can_undo() ? "yes" : "no";
    s["can redo"] = document.can_redo() ? "yes" : "no";
    s["what if"] = studio.what_if() ? "yes" : "no";
    s["look"] = look_name(look);
    s["compare"] = word_of(compare);
    s["against"] = with_before && studio.what_if() ? "before" : "reference";
    s["edges"] = edges_shown ? "yes" : "no";
    s["edge rows"] = std::to_string(edges_.size());
    s["edge"] = edge >= 0 && edge < static_cast<int>(edges_.size()) ? edges_[static_cast<std::size_t>(edge)].between : "none";
    s["minute"] = clock_text(minute_s);
    s["reached"] = clock_text(strip_.reached_s);
    s["playing"] = playing ? "yes" : "no";
    s["pace"] = std::to_string(pace);
    s["px per mm"] = fmt::format("{:.2f}", view.px_per_mm());
    s["middle"] = fmt::format("{:.0f} {:.0f}", view.middle().x, view.middle().y);
    s["curtain"] = fmt::format("{:.2f}", curtain);
    s["glass"] = glass_ ? glass_->words : "none";
    s["note"] = note;
    const auto plan = document.plan();
    s["act"] = act >= 0 && plan ? plan->steps[static_cast<std::size_t>(act)].name : "none";
    if (const StripAct* a = strip_.act(act))
        s["act begins"] = clock_text(a->start_s);
    const auto is = [](const std::shared_ptr<Run>& run) -> std::string {
        if (!run)
            return "none";
        switch (run->progress().is) {
        case RunProgress::Is::waiting: return "waiting";
        case RunProgress::Is::painting: return "painting";
        case RunProgress::Is::judging: return "judging";
        case RunProgress::Is::finished: return "finished";
        case RunProgress::Is::stopped: return "stopped";
        case RunProgress::Is::failed: return "failed";
        }
        return "";
    };
    s["draft"] = is(studio.draft());
    s["truth"] = is(studio.truth());
    s["slip"] = slip == Slip::save_as ? "save as" : slip == Slip::leaving ? "leaving" : slip == Slip::sheet ? "sheet" : "none";
    return s;
}

} // namespace tidemark::viewer
