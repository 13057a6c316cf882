#include "viewer/window/classroom.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "plan/read_plan.h"
#include "sheet/stage.h"
#include "viewer/window/strip.h"

namespace tidemark::viewer {

namespace {

const char* const sheen[] = {"wet: it mirrors", "moist: the sheen is breaking", "damp: no sheen, cool to the hand", "dry"};

/// Stage of an area at that time, as far as it is known; -1: not yet.
int stage_at(const Run& run, int area, double time_s) {
    const StageLine line = run.stages(area);
    int stage = -1;
    for (const auto& s : line.samples) {
        if (s.time_s > time_s + 1e-6)
            break;
        const double share[4] = {s.share[0], s.share[1], s.share[2], s.share[3]};
        stage = 0;
        for (const auto k : {sheet::CellStage::moist, sheet::CellStage::damp, sheet::CellStage::dry})
            if (sheet::has_reached(share, k))
                stage = static_cast<int>(k);
    }
    return stage;
}

} // namespace

void Classroom::open(const plan::Lesson& lesson, const materials::Presets& presets, std::function<void()> news, plan::FilesFrom from) {
    std::vector<ClassSheet> sheets;
    std::vector<std::shared_ptr<Run>> runs;
    std::vector<plan::Plan> plans;
    for (const plan::LessonSheet& s : lesson.sheets) // all are read before any is begun
        plans.push_back(plan::read_plan(s.plan, presets, from));
    for (std::size_t k = 0; k < plans.size(); ++k) {
        RunOrder order;
        order.plan = std::make_shared<const plan::Plan>(std::move(plans[k]));
        order.cell_m = 1e-3 * lesson.cell_mm;
        order.moment_every_s = 5;
        order.threads = plans.size() > 1 ? 1 : 0;
        order.news = news;
        runs.push_back(Run::begin(order));
        const int watch = lesson.sheets[k].watch.empty() ? -1 : order.plan->area_index(lesson.sheets[k].watch);
        sheets.push_back({runs.back(), lesson.sheets[k].caption, std::max(watch, -1)});
    }
    open(lesson.title, std::move(sheets), lesson.moments_s);
    for (std::size_t k = 0; k < runs.size(); ++k)
        seats_[k].own = runs[k];
    from_desk = false;
}

void Classroom::open(std::string title, std::vector<ClassSheet> sheets, std::vector<double> moments_s) {
    close();
    title_ = std::move(title);
    moments_s_ = std::move(moments_s);
    for (ClassSheet& s : sheets) {
        seats_.emplace_back();
        seats_.back().view.of_sheet(1e3 * s.run->plan().width_m, 1e3 * s.run->plan().height_m);
        seats_.back().sheet = std::move(s);
    }
    minute_s_ = 0;
    pace_ = 60;
    playing_ = true;
    waiting_ = at_moment_ = dried_ = wants_to_leave = false;
    chosen_look_.reset();
    from_desk = true;
}

void Classroom::close() {
    for (Seat& s : seats_)
        if (s.own)
            s.own->cancel();
    seats_.clear();
}

double Classroom::reached_s() const {
    double reached = 1e18;
    for (const Seat& s : seats_)
        reached = std::min(reached, s.sheet.run->reel().last_s());
    return seats_.empty() ? 0 : std::max(0.0, reached);
}

bool Classroom::all_done() const {
    return std::all_of(seats_.begin(), seats_.end(), [](const Seat& s) { return s.sheet.run->progress().over(); });
}

void Classroom::update(double dt_s) {
    if (!playing_)
        return;
    const double reached = reached_s();
    double to = minute_s_ + dt_s * pace_;
    for (const double moment : moments_s_)
        if (moment > minute_s_ + 1e-6 && moment <= to && moment <= reached) { // here the class looks
            minute_s_ = moment;
            playing_ = false;
            at_moment_ = true;
            return;
        }
    waiting_ = to > reached && !all_done();
    const double last = moments_s_.empty() ? 1e18 : moments_s_.back();
    if (all_done() && (to >= reached || minute_s_ >= last)) { // after the last moment comes the dried sheet
        minute_s_ = reached;
        dried_ = true;
        playing_ = false;
        return;
    }
    minute_s_ = std::min(to, reached);
}

bool Classroom::obey(Do what) {
    const auto jump = [&](double s) {
        minute_s_ = std::clamp(s, 0.0, reached_s());
        dried_ = at_moment_ = false;
    };
    switch (what) {
    case Do::play:
        if (dried_)
            jump(0);
        at_moment_ = false;
        playing_ = !playing_;
        break;
    case Do::pace_1: pace_ = 1; break;
    case Do::pace_10: pace_ = 10; break;
    case Do::pace_60: pace_ = 60; break;
    case Do::earlier: jump(minute_s_ - 15); break;
    case Do::later: jump(minute_s_ + 15); break;
    case Do::act_after:
        for (const double m : moments_s_)
            if (m > minute_s_ + 1e-6 && m <= reached_s()) {
                jump(m);
                playing_ = false, at_moment_ = true;
                return true;
            }
        if (all_done())
            jump(reached_s()), dried_ = true, playing_ = false;
        break;
    case Do::act_before: {
        double to = 0;
        for (const double m : moments_s_)
            if (m < minute_s_ - 1e-6)
                to = m;
        jump(to);
        playing_ = false, at_moment_ = to > 0;
        break;
    }
    case Do::to_start: jump(0); break;
    case Do::to_end: jump(reached_s()), dried_ = all_done(), playing_ = false; break;
    case Do::look_now: chosen_look_ = LookKind::now; break;
    case Do::look_dried: chosen_look_ = LookKind::dried; break;
    case Do::look_values: chosen_look_ = LookKind::values; break;
    case Do::look_groups: chosen_look_ = LookKind::groups; break;
    case Do::look_water: chosen_look_ = LookKind::water; break;
    case Do::let_go:
    case Do::in_class:
    case Do::start_page: wants_to_leave = true; break;
    default: return false;
    }
    return true;
}

void Classroom::draw_seat(Ui& ui, SDL_Renderer* renderer, Seat& seat, const Rect& r) {
    const std::vector<double> times = seat.sheet.run->reel().times_s();
    if (!times.empty()) {
        const auto after = std::upper_bound(times.begin(), times.end(), minute_s_ + 1e-6);
        const double time_s = after == times.begin() ? times.front() : *(after - 1);
        if (time_s != seat.time_s || look() != seat.look || seat.pixels.width == 0)
            if (const auto moment = seat.sheet.run->reel().at(time_s, parts_for(look()))) {
                seat.pixels = pixels_of(*moment, look(), {});
                seat.time_s = time_s, seat.look = look();
                seat.stale = true;
            }
    }
    seat.view.place(r);
    if (seat.stale || seat.drawn_w != r.width() || seat.drawn_h != r.height()) {
        seat.canvas.size(static_cast<int>(r.width()), static_cast<int>(r.height()), ui.theme.mat);
        draw_sheet(seat.canvas, r, seat.view, r, seat.pixels, r.x0, r.x1);
        seat.shown.take(renderer, seat.canvas);
        seat.stale = false, seat.drawn_w = r.width(), seat.drawn_h = r.height();
    }
    ui.paint->AddImage(seat.shown.texture(), ImVec2(r.x0, r.y0), ImVec2(r.x1, r.y1));
}

void Classroom::draw(Ui& ui, SDL_Renderer* renderer, const Rect& all) {
    const float em = ui.em, head = std::round(2.6F * em), foot = std::round(2.9F * em);
    fill(ui, all, ui.theme.ground);
    float x = all.x0 + em;
    write_within(ui, x, all.y0 + 0.5F * em, all.width() - 10 * em, ui.theme.ink, title_, ui.title);
    float kx = all.x1 - 0.6F * em - text_width(ui, "leave") - 1.6F * em - text_width(ui, "Esc", ui.small);
    if (word(ui, "leave", kx, all.y0 + 0.8F * em, false, "Esc"))
        wants_to_leave = true;
    const Rect room{all.x0, all.y0 + head, all.x1, all.y1 - foot};
    const auto n = static_cast<float>(seats_.size());
    if (seats_.empty())
        return;
    // Side by side or one below the other, whichever shows the sheets larger.
    const auto aspect = static_cast<float>(seats_.front().view.width_mm() / seats_.front().view.height_mm());
    const float line = std::round(2.3F * em);
    const bool below = n > 1 && std::min(room.width() / aspect, room.height() / n - line) >
                                    std::min(room.width() / n / aspect, room.height() - line);
    for (std::size_t k = 0; k < seats_.size(); ++k) {
        const auto at = static_cast<float>(k);
        Rect r = below ? Rect{room.x0, room.y0 + at * room.height() / n, room.x1, room.y0 + (at + 1) * room.height() / n}
                       : Rect{room.x0 + at * room.width() / n, room.y0, room.x0 + (at + 1) * room.width() / n, room.y1};
        r = {std::round(r.x0) + (at > 0 && !below ? 2 : 0), std::round(r.y0), std::round(r.x1), std::round(r.y1) - line};
        draw_seat(ui, renderer, seats_[k], r);
        const int stage = stage_at(*seats_[k].sheet.run, seats_[k].sheet.watch, minute_s_);
        std::string caption = seats_[k].sheet.caption;
        if (stage >= 0 && !dried_)
            caption += (caption.empty() ? "" : " · ") + std::string(sheen[stage]);
        if (dried_)
            caption += (caption.empty() ? "" : " · ") + std::string("the dried sheet");
        if (const RunProgress p = seats_[k].sheet.run->progress(); p.is == RunProgress::Is::failed)
            caption = p.problem;
        write_within(ui, r.x0 + em, r.y1 + 0.5F * em, r.width() - 2 * em, ui.theme.ink, caption, ui.body);
    }
    // The foot: the minute, and where it pauses.
    const float y = all.y1 - foot + 0.8F * em;
    fill(ui, {all.x0, all.y1 - foot, all.x1, all.y1 - foot + 1}, ui.theme.rule);
    x = all.x0 + 0.6F * em;
    if (word(ui, playing_ ? "pause" : "go on", x, y, playing_, "space", "play"))
        obey(Do::play);
    x = write(ui, x + em, y - 0.35F * em, ui.theme.ink, clock_text(minute_s_), ui.title) + 1.5F * em;
    if (waiting_ && playing_)
        x = write(ui, x, y, ui.theme.quiet, "still being painted …") + em;
    const float end_s = static_cast<float>(std::max({60.0, reached_s(), moments_s_.empty() ? 0 : moments_s_.back()}));
    const Rect axis{std::max(x, all.x0 + 0.34F * all.width()), y, all.x1 - 1.5F * em, y + em};
    fill(ui, {axis.x0, axis.middle_y() - 1, axis.x1, axis.middle_y() + 1}, ui.theme.rule);
    const auto at = [&](double s) { return std::floor(axis.x0 + static_cast<float>(s) / end_s * axis.width()); };
    fill(ui, {axis.x0, axis.middle_y() - 1, at(reached_s()), axis.middle_y() + 1}, ui.theme.quiet);
    for (const double m : moments_s_)
        if (m <= end_s)
            fill(ui, {at(m) - 2, axis.middle_y() - 0.35F * em, at(m) + 2, axis.middle_y() + 0.35F * em}, ui.theme.accent);
    const float now = at(std::min(minute_s_, static_cast<double>(end_s)));
    fill(ui, {now - 2, axis.y0 - 0.2F * em, now + 2, axis.y1 + 0.2F * em}, ui.theme.ink);
    const Press p = press(ui, "minutes", {axis.x0, axis.y0 - 0.4F * em, axis.x1, axis.y1 + 0.4F * em}, false);
    if (p.held) {
        minute_s_ = std::clamp((ImGui::GetIO().MousePos.x - axis.x0) / axis.width() * static_cast<double>(end_s), 0.0,
                               reached_s());
        dried_ = at_moment_ = playing_ = false;
    }
}

std::map<std::string, std::string> Classroom::state() const {
    std::map<std::string, std::string> s;
    s["title"] = title_;
    s["sheets"] = std::to_string(seats_.size());
    s["minute"] = clock_text(minute_s_);
    s["reached"] = clock_text(reached_s());
    s["playing"] = playing_ ? "yes" : "no";
    s["at a moment"] = at_moment_ ? "yes" : "no";
    s["dried"] = dried_ ? "yes" : "no";
    s["look"] = look_name(look());
    for (std::size_t k = 0; k < seats_.size(); ++k) {
        s["caption " + std::to_string(k + 1)] = seats_[k].sheet.caption;
        s["done " + std::to_string(k + 1)] = seats_[k].sheet.run->progress().over() ? "yes" : "no";
    }
    return s;
}

} // namespace tidemark::viewer
