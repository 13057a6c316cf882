#include "viewer/window/classroom.h"

#include <algorithm>

#include "plan/read_plan.h"
#include "viewer/window/strip.h"

namespace tidemark::viewer {

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
