// The class as it is seen: its sheets, what is told below each, the minute at the foot.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "sheet/stage.h"
#include "viewer/window/classroom.h"
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
    const bool long_title = text_width(ui, title_, ui.title) > all.width() - 10 * em;
    write_within(ui, x, all.y0 + (long_title ? 0.8F : 0.5F) * em, all.width() - 10 * em, ui.theme.ink, title_, long_title ? ui.strong : ui.title);
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

} // namespace tidemark::viewer
