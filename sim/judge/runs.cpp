// Paint that went where nobody laid any.
#include "grid/csv.h"
#include "judge/marks_detail.h"
#include "judge/median_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <span>

namespace tidemark::judge {

namespace {

using Mask = grid::Field<std::uint8_t>;

constexpr double far_mm = 10;           ///< from all paint: paper as it was
constexpr double least_paper_mm2 = 100; ///< of that; less, and all that is bare stands for it
constexpr double soft_mm = 0.5;         ///< standard deviation of the smoothing against grain
constexpr double hangs_mm = 1.5;        ///< a run hangs on the paint it comes from
constexpr double least_mm2 = 4;

/// Paper that no act touched and no painted area covers.
Mask bare_of(const Scene& s) {
    Mask bare(s.geometry.nx, s.geometry.ny, 1);
    const auto clear = [&](const sheet::CellFrame& f, auto&& is_painted) {
        for (int j = f.j0; j < f.j1; ++j)
            for (int i = f.i0; i < f.i1; ++i)
                if (is_painted(i, j))
                    bare(i, j) = 0;
    };
    for (const sheet::ActRecord& act : s.record.acts)
        clear(act.cells.frame(), [&](int i, int j) { return act.cells.touched(i, j); });
    clear({0, 0, s.geometry.nx, s.geometry.ny},
          [&](int i, int j) { return !s.map.combos[static_cast<std::size_t>(s.map.combo(i, j))].empty(); });
    return bare;
}

/// The last act that laid paint at a cell; nullptr: none did.
const sheet::ActRecord* painter_of(const Scene& s, const grid::Cell& c) {
    const sheet::ActRecord* last = nullptr;
    for (const sheet::ActRecord& act : s.record.acts)
        if (brings_paint(act) && act.cells.touched(c.i, c.j))
            last = &act;
    return last;
}

void find_on_paper(const Scene& s, const MarkRules& rules, std::vector<Mark>& marks) {
    const Mask bare = bare_of(s);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    std::vector<grid::Cell> painted;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            if (!bare(i, j))
                painted.push_back({i, j});
    if (painted.empty() || painted.size() == static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny))
        return;
    grid::Geodesic out(nx, ny, [&](int i, int j) { return bare(i, j) != 0; });
    out.spread(painted);
    const grid::Field<float> soft = smoothed(s.lstar, bare, std::max(soft_mm / s.cell_mm, 0.5));
    std::vector<double> paper, all;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            if (bare(i, j)) {
                all.push_back(soft(i, j));
                if (!(out.distance({i, j}) * s.cell_mm < far_mm))
                    paper.push_back(soft(i, j));
            }
    const bool far_enough = static_cast<double>(paper.size()) * s.cell_mm * s.cell_mm >= least_paper_mm2;
    if (!far_enough)
        paper = all;
    const double paper_L = median(paper), dark = std::max(rules.run_dark_L, rules.grains * spread(paper));
    Mask is_dark(nx, ny);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            is_dark(i, j) = bare(i, j) && paper_L - soft(i, j) >= dark;
    for (const auto& patch : patches_of(is_dark)) {
        const auto nearer = [&](const grid::Cell& a, const grid::Cell& b) {
            return out.distance(a) < out.distance(b);
        };
        const grid::Cell end = *std::max_element(patch.begin(), patch.end(), nearer);
        const double reach_mm = out.distance(end) * s.cell_mm;
        const double start_mm = out.distance(*std::min_element(patch.begin(), patch.end(), nearer)) * s.cell_mm;
        if (!out.reached(end) || start_mm > std::max(hangs_mm, 2 * s.cell_mm) || reach_mm < rules.run_from_mm ||
            static_cast<double>(patch.size()) * s.cell_mm * s.cell_mm < least_mm2)
            continue;
        grid::Cell from = end;
        while (!(out.before(from) == from))
            from = out.before(from);
        const sheet::ActRecord* act = painter_of(s, from);
        if (act == nullptr)
            continue;
        std::vector<double> off;
        for (const grid::Cell& c : patch)
            if (out.distance(c) * s.cell_mm >= std::min(rules.run_from_mm, 0.5 * reach_mm))
                off.push_back(paper_L - soft(c.i, c.j));
        Mark m{.kind = MarkKind::run,
               .step = act->step,
               .area = s.area(*act),
               .minute = minute_at(*act, from.i, from.j),
               .x_mm = s.x_mm(end.i),
               .y_mm = s.x_mm(end.j),
               .size_mm = reach_mm,
               .dark_L = median(off),
               .pale_L = 0,
               .met = {},
               .text = {}};
        m.text = fmt::format(
            "a run to {:.0f}, {:.0f} mm, {:.0f} mm beyond what was painted, {:.0f} L* darker than the paper: "
            "\"{}\" was laid beside it at {}",
            m.x_mm, m.y_mm, m.size_mm, m.dark_L, s.name(*act), grid::clock_text(60 * m.minute));
        marks.push_back(m);
    }
}

void find_in_neighbours(const Scene& s,
                        const std::vector<Edge>& edges,
                        const MarkRules& rules,
                        std::vector<Mark>& marks) {
    for (const Edge& e : edges) {
        if (e.neighbour == "paper")
            continue;
        for (const Stretch& t : e.stretches) {
            if (!(t.shift_mm >= rules.run_from_mm && t.surely_mm >= rules.run_from_mm && t.shift_mm > t.width_mm &&
                  t.delta_L >= rules.run_dark_L && t.inside_L < t.outside_L))
                continue;
            Mark m{.kind = MarkKind::run,
                   .step = e.step,
                   .area = e.area,
                   .minute = t.laid_min,
                   .x_mm = t.middle.x_mm,
                   .y_mm = t.middle.y_mm,
                   .size_mm = t.shift_mm,
                   .dark_L = t.delta_L,
                   .pale_L = 0,
                   .met = {},
                   .text = {}};
            const std::string when =
                std::isnan(t.laid_min) ? "" : fmt::format(", laid at {}", grid::clock_text(60 * t.laid_min));
            m.text = fmt::format("a run at {:.0f}, {:.0f} mm: along {:.0f} mm \"{}\"{}, went {:.0f} mm into {}",
                                 m.x_mm, m.y_mm, t.length_mm, s.plan.steps[static_cast<std::size_t>(e.step)].name,
                                 when, m.size_mm, e.neighbour);
            marks.push_back(m);
        }
    }
}

} // namespace

void find_runs(const Scene& scene, const std::vector<Edge>& edges, const MarkRules& rules, std::vector<Mark>& marks) {
    find_on_paper(scene, rules, marks);
    find_in_neighbours(scene, edges, rules, marks);
}

} // namespace tidemark::judge
