// Dark lines and steps along which a wash came back to its own edge.
#include "grid/csv.h"
#include "judge/boundary.h"
#include "judge/marks_detail.h"
#include "judge/median_detail.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace tidemark::judge {

namespace {

constexpr double across_mm = 12, every_mm = 0.25; ///< read to either side
constexpr double window_mm = 5;                   ///< to either side along the line
constexpr double line_within_mm = 3;              ///< the dark line lies so near, and the plateaus beyond
constexpr double step_at_most_mm = 5;
constexpr double side_at_least_mm = 3; ///< of paint, on either side
constexpr double bridge_mm = 2;        ///< gaps that don't part a line

/// A cell that was laid beside an older one; the normal points away from that.
struct Join {
    grid::Cell cell;
    double x = 0, y = 0;
    bool was_dry = false;
    std::vector<float> lstar; ///< NaN where something else lies
    double length_mm(double cell_mm) const { return cell_mm / std::max(std::abs(x), std::abs(y)); }
};

struct Reading {
    double line_L = 0, step_L = 0, grain_L = 0;
};

class Laps {
  public:
    Laps(const Scene& scene, const sheet::ActRecord& act, const MarkRules& rules)
        : s_(scene), act_(act), rules_(rules) {}

    void find(std::vector<Mark>& marks) {
        const auto& g = s_.geometry;
        grid::Field<std::uint8_t> at_join(g.nx, g.ny);
        const sheet::CellFrame& f = act_.cells.frame();
        bool any = false;
        for (int j = f.j0; j < f.j1; ++j)
            for (int i = f.i0; i < f.i1; ++i)
                any |= (at_join(i, j) = came_back(i, j)) != 0;
        if (!any)
            return;
        for (const auto& patch : patches_of(widened(at_join, std::max(1.0, 0.5 * bridge_mm / s_.cell_mm)))) {
            std::vector<Join> joins;
            for (const grid::Cell& c : patch)
                if (at_join(c.i, c.j))
                    if (auto join = join_at(c))
                        joins.push_back(std::move(*join));
            if (auto mark = judged(joins))
                marks.push_back(*mark);
        }
    }

  private:
    const Scene& s_;
    const sheet::ActRecord& act_;
    const MarkRules& rules_;

    bool left_dry(int i, int j) const { return act_.cells.how(i, j) == sheet::Touched::at_left_edge; }
    /// Laid so long before cell (i, j) that its paint had begun to set.
    bool older(int a, int b, int i, int j) const {
        return act_.cells.touched(a, b) &&
               act_.cells.after_s(i, j) - act_.cells.after_s(a, b) >= (left_dry(i, j) ? 1 : rules_.back_after_s);
    }
    bool came_back(int i, int j) const {
        if (!act_.cells.touched(i, j))
            return false;
        constexpr int beside[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
        return std::any_of(std::begin(beside), std::end(beside), [&](const auto& d) {
            const int a = i + d[0], b = j + d[1];
            return a >= 0 && b >= 0 && a < s_.geometry.nx && b < s_.geometry.ny && older(a, b, i, j);
        });
    }

    std::optional<Join> join_at(const grid::Cell& c) const {
        Join join{c, 0, 0, left_dry(c.i, c.j), {}};
        const int r = std::max(1, static_cast<int>(2 / s_.cell_mm));
        for (int b = std::max(0, c.j - r); b <= std::min(s_.geometry.ny - 1, c.j + r); ++b)
            for (int a = std::max(0, c.i - r); a <= std::min(s_.geometry.nx - 1, c.i + r); ++a)
                if (older(a, b, c.i, c.j))
                    join.x -= a - c.i, join.y -= b - c.j;
        const double length = std::hypot(join.x, join.y);
        if (length < 1e-9)
            return std::nullopt;
        join.x /= length, join.y /= length;
        const int own = s_.map.combo(c.i, c.j);
        for (int k = -steps(); k <= steps(); ++k) {
            const double x = s_.x_mm(c.i) + k * every_mm * join.x, y = s_.x_mm(c.j) + k * every_mm * join.y;
            const int i = static_cast<int>(std::floor(x / s_.cell_mm)),
                      j = static_cast<int>(std::floor(y / s_.cell_mm));
            const bool same = s_.map.combo_at(x, y) == own && act_.cells.touched(i, j);
            join.lstar.push_back(same ? static_cast<float>(sample_mm(s_.lstar, s_.cell_mm, x, y)) : NAN);
        }
        return join;
    }
    static int steps() { return static_cast<int>(across_mm / every_mm); }

    /// Mean over the joins near this one, as far to either side as half of them reach.
    Profile profile_at(const std::vector<Join>& joins, std::size_t at) const {
        std::vector<double> sum(2 * steps() + 1, 0.0);
        std::vector<int> count(sum.size(), 0);
        int n = 0;
        for (const Join& other : joins) {
            const double dx = (other.cell.i - joins[at].cell.i) * s_.cell_mm,
                         dy = (other.cell.j - joins[at].cell.j) * s_.cell_mm;
            if (std::hypot(dx, dy) > window_mm || other.x * joins[at].x + other.y * joins[at].y < 0.5)
                continue;
            ++n;
            for (std::size_t k = 0; k < sum.size(); ++k)
                if (!std::isnan(other.lstar[k]))
                    sum[k] += other.lstar[k], ++count[k];
        }
        Profile p;
        p.step_mm = every_mm;
        int first = steps(), last = steps();
        if (2 * count[first] < n)
            return p;
        while (first > 0 && 2 * count[first - 1] >= n)
            --first;
        while (last < 2 * steps() && 2 * count[last + 1] >= n)
            ++last;
        p.from_mm = (first - steps()) * every_mm;
        for (int k = first; k <= last; ++k)
            p.lstar.push_back(static_cast<float>(sum[k] / count[k]));
        return p;
    }

    static std::optional<Reading> read(const Profile& p) {
        const double last = p.lstar.empty() ? 0 : p.at_mm(p.lstar.size() - 1);
        if (p.lstar.empty() || -p.from_mm < line_within_mm + side_at_least_mm ||
            last < line_within_mm + side_at_least_mm)
            return std::nullopt;
        const Transition t = measure_transition(p);
        Reading r;
        if (t.width_mm <= step_at_most_mm && std::abs(t.at_mm) <= line_within_mm)
            r.step_L = std::abs(t.outside_L - t.inside_L);
        const double base = std::min(t.inside_L, t.outside_L);
        std::vector<double> left, right;
        for (std::size_t k = 0; k < p.lstar.size(); ++k)
            if (std::abs(p.at_mm(k)) <= line_within_mm)
                r.line_L = std::max(r.line_L, base - p.lstar[k]);
            else
                (p.at_mm(k) < 0 ? left : right).push_back(p.lstar[k]);
        r.grain_L = std::max(spread(left), spread(right));
        return r;
    }

    std::optional<Mark> judged(const std::vector<Join>& joins) const {
        std::vector<std::optional<Reading>> readings;
        std::vector<double> grains;
        for (std::size_t k = 0; k < joins.size(); ++k) {
            readings.push_back(read(profile_at(joins, k)));
            if (readings.back())
                grains.push_back(readings.back()->grain_L);
        }
        const double beyond_grain = grains.empty() ? 0 : rules_.grains * median(grains);
        const double line = std::max(rules_.lap_line_L, beyond_grain),
                     step = std::max(rules_.lap_step_L, beyond_grain);
        std::vector<std::size_t> there;
        std::vector<double> dark, minutes;
        double length_mm = 0, x = 0, y = 0;
        std::size_t dry = 0, lines = 0;
        for (std::size_t k = 0; k < joins.size(); ++k) {
            if (!readings[k] || (readings[k]->line_L < line && readings[k]->step_L < step))
                continue;
            there.push_back(k);
            lines += readings[k]->line_L >= line, dry += joins[k].was_dry;
            dark.push_back(readings[k]->line_L >= line ? readings[k]->line_L : readings[k]->step_L);
            minutes.push_back(minute_at(act_, joins[k].cell.i, joins[k].cell.j));
            length_mm += joins[k].length_mm(s_.cell_mm);
            x += joins[k].cell.i, y += joins[k].cell.j;
        }
        if (there.empty() || length_mm < rules_.lap_from_mm)
            return std::nullopt;
        const double n = static_cast<double>(there.size());
        const auto off = [&](std::size_t k) { return std::hypot(joins[k].cell.i - x / n, joins[k].cell.j - y / n); };
        const grid::Cell middle =
            joins[*std::min_element(there.begin(), there.end(), [&](auto a, auto b) { return off(a) < off(b); })]
                .cell;
        Mark m{.kind = MarkKind::lap,
               .step = act_.step,
               .area = s_.area(act_),
               .minute = median(minutes),
               .x_mm = s_.x_mm(middle.i),
               .y_mm = s_.x_mm(middle.j),
               .size_mm = length_mm,
               .dark_L = median(dark),
               .pale_L = 0,
               .met = {},
               .text = {}};
        m.text = fmt::format(
            "a lap {:.0f} mm long at {:.0f}, {:.0f} mm, a {} of {:.0f} L*: at {} \"{}\" came back to its own "
            "edge, which had {}",
            m.size_mm, m.x_mm, m.y_mm, 2 * lines >= there.size() ? "dark line" : "step", m.dark_L,
            grid::clock_text(60 * m.minute), s_.name(act_),
            2 * dry >= there.size() ? "no film left" : "begun to set");
        return m;
    }
};

} // namespace

void find_laps(const Scene& scene, const MarkRules& rules, std::vector<Mark>& marks) {
    for (const sheet::ActRecord& act : scene.record.acts)
        if (std::holds_alternative<plan::Wash>(scene.plan.steps[act.step].act) && act.cells.known())
            Laps(scene, act, rules).find(marks);
}

} // namespace tidemark::judge
