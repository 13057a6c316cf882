#include "judge/windows.h"

#include "grid/units.h"
#include "plan/coverage.h"

#include <algorithm>
#include <limits>

namespace tidemark::judge {

namespace {

using sheet::CellStage;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// A window ends when a later act touches at least this share of what the act touched; less (drops into a wash, the
/// shadow side of a shape, masks that lap over) leaves the area's window open, wetter in places.
constexpr double shared_place = 0.5;

int area_of(const plan::Plan& p, const sheet::ActRecord& a) {
    return a.step >= 0 && a.step < static_cast<int>(p.steps.size()) ? p.steps[a.step].area() : plan::whole_sheet;
}

bool same_place(const plan::Plan& p, const sheet::ActRecord& earlier, const sheet::ActRecord& later) {
    if (!earlier.cells.known() || !later.cells.known())
        return area_of(p, earlier) == area_of(p, later);
    const sheet::CellFrame& f = earlier.cells.frame();
    if (!f.meets(later.cells.frame())) // as of most pairs, where acts are thousands
        return false;
    double first = 0, both = 0;
    for (int j = f.j0; j < f.j1; ++j)
        for (int i = f.i0; i < f.i1; ++i) {
            if (!earlier.cells.touched(i, j))
                continue;
            first += 1;
            if (later.cells.touched(i, j))
                both += 1;
        }
    return first > 0 && both >= shared_place * first;
}

/// First moment in [from, to] at which enough of the area has reached `stage`.
double reached_min(const sheet::Record& r, int area, CellStage stage, double from_s, double to_s) {
    const sheet::StageSample* before = nullptr;
    const double enough = sheet::stage_share(stage);
    const auto drier = [&](const sheet::StageSample& s) {
        double sum = 0;
        for (int k = static_cast<int>(stage); k < 4; ++k)
            sum += s.share[k];
        return sum;
    };
    for (const auto& s : r.stages) {
        if (s.area != area || s.time_s < from_s || s.time_s > to_s)
            continue;
        if (drier(s) >= enough - 1e-9) { // shares are ratios of counts
            if (before == nullptr)
                return grid::min_from_s(s.time_s);
            const double a = drier(*before), t = (enough - a) / (drier(s) - a);
            return grid::min_from_s(before->time_s + std::clamp(t, 0.0, 1.0) * (s.time_s - before->time_s));
        }
        before = &s;
    }
    return none;
}

Window window_of(const plan::Plan& p, const sheet::Record& r, const sheet::ActRecord& act, double until_s) {
    const int area = area_of(p, act);
    Window w;
    w.step = act.step;
    w.area = plan::area_name(p, area);
    w.wet_from_min = grid::min_from_s(act.start_s);
    w.moist_min = reached_min(r, area, CellStage::moist, act.end_s, until_s);
    w.damp_min = reached_min(r, area, CellStage::damp, act.end_s, until_s);
    w.dry_min = reached_min(r, area, CellStage::dry, act.end_s, until_s);
    w.until_min = grid::min_from_s(until_s);
    return w;
}

} // namespace

std::vector<Window> judge_windows(const plan::Plan& p, const sheet::Record& r) {
    std::vector<Window> out;
    const sheet::ActRecord *first = nullptr, *last = nullptr;
    for (const auto& act : r.acts) {
        if (!(act.water_kg > 0))
            continue;
        double until_s = r.end_s;
        for (const auto& next : r.acts)
            if (next.water_kg > 0 && next.start_s > act.start_s && next.start_s < until_s && same_place(p, act, next))
                until_s = next.start_s;
        out.push_back(window_of(p, r, act, until_s));
        if (first == nullptr || act.start_s < first->start_s)
            first = &act;
        if (last == nullptr || act.end_s > last->end_s)
            last = &act;
    }
    if (first == nullptr)
        return out;
    Window sheet;
    sheet.area = plan::area_name(p, plan::whole_sheet);
    sheet.wet_from_min = grid::min_from_s(first->start_s);
    sheet.moist_min = sheet.damp_min = none; // bare paper would pass for paint that has lost its sheen
    sheet.dry_min = reached_min(r, plan::whole_sheet, CellStage::dry, last->end_s, r.end_s);
    sheet.until_min = grid::min_from_s(r.end_s);
    out.push_back(sheet);
    return out;
}

} // namespace tidemark::judge
