// Moments unpacked to be looked at: once for each that is shown.
#include <algorithm>

#include "viewer/window/desk.h"

namespace tidemark::viewer {

namespace {

/// The last that was kept up to then; below 0: none yet.
double kept_moment(const Run& run, double minute_s) {
    const std::vector<double> times = run.reel().times_s();
    if (times.empty())
        return -1;
    const auto after = std::upper_bound(times.begin(), times.end(), minute_s + 1e-6);
    return after == times.begin() ? times.front() : *(after - 1);
}

} // namespace

void Desk::hold(Held& held, std::shared_ptr<const Run> run, LookKind kind, bool reference) {
    if (!run)
        return;
    if (kind == LookKind::difference && !reference_)
        kind = LookKind::dried;
    double time_s = reference ? -2 : -1;
    if (!reference) {
        time_s = kept_moment(*run, minute_s);
        if (time_s < 0)
            return;
    }
    if (held.run == run && held.time_s == time_s && held.look == kind && held.reference == reference && !held.less &&
        held.pixels.width > 0)
        return;
    if (reference) {
        if (!reference_)
            return;
        const auto moment = run->reel().at(0, 0);
        if (!moment)
            return;
        held.pixels = reference_pixels(plan_ ? *plan_ : run->plan(), *reference_, kind, moment->nx, moment->ny);
    } else {
        const auto moment = run->reel().at(time_s, parts_for(kind));
        if (!moment)
            return;
        held.pixels = pixels_of(*moment, kind, {reference_.get()});
    }
    held.run = std::move(run), held.time_s = time_s, held.look = kind, held.reference = reference;
    held.less.reset();
    held.edition = ++editions_;
}

void Desk::look_through_glass(const std::shared_ptr<const Run>& run) {
    glass_.reset();
    const std::optional<Spot_mm> at = mark.on() ? mark.at() : pointer_;
    if (!glass_on || !at || !run)
        return;
    const double time_s = kept_moment(*run, minute_s);
    if (through_glass_.run != run || through_glass_.time_s != time_s)
        through_glass_ = {run, time_s, run->reel().at(time_s, glass_parts)};
    if (!through_glass_.moment)
        return;
    glass_ = under_glass(*run, *through_glass_.moment, minute_s, at->x, at->y);
    if (glass_ && reference_ && sheet_.pixels.width > 0) {
        const reference::ValueMap& map = reference_->map(sheet_.pixels.width, sheet_.pixels.height);
        const auto cell = [](double mm, double side_mm, int n) { return std::clamp(static_cast<int>(mm / side_mm * n), 0, n - 1); };
        glass_->reference_lstar = map.at(cell(at->x, view.width_mm(), map.width), cell(at->y, view.height_mm(), map.height));
    }
}

/// What the change did: the sheet at this minute less the sheet before the change, both as they will dry.
void Desk::hold_difference(std::shared_ptr<const Run> after, std::shared_ptr<const Run> before) {
    if (!after || !before)
        return;
    const double after_s = kept_moment(*after, minute_s), before_s = kept_moment(*before, minute_s);
    if (after_s < 0 || before_s < 0)
        return;
    if (sheet_.run == after && sheet_.time_s == after_s && sheet_.look == LookKind::difference && sheet_.less == before &&
        sheet_.less_s == before_s)
        return;
    const auto now = after->reel().at(after_s, part_dried), then = before->reel().at(before_s, part_dried);
    if (!now || !then)
        return;
    sheet_.pixels = pixels_of_change(*now, *then);
    sheet_.run = std::move(after), sheet_.time_s = after_s, sheet_.look = LookKind::difference, sheet_.reference = false;
    sheet_.less = std::move(before), sheet_.less_s = before_s;
    sheet_.edition = ++editions_;
}

} // namespace tidemark::viewer
