// Pale patches with a dark lobed rim, where water came to paint that was moist or damp.
#include "grid/csv.h"
#include "judge/marks_detail.h"
#include "judge/median_detail.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace tidemark::judge {

namespace {

using Mask = grid::Field<std::uint8_t>;

constexpr double bridge_mm = 3;        ///< drops that lie so near are looked at together
constexpr double around_mm = 20;       ///< how far the rest of the wash is read
constexpr double edge_mm = 4;          ///< of the wash's own border, where it has a rim or runs out
constexpr double beyond_mm = 8;        ///< of the water: there the wash is as it would be without
constexpr double least_rest_mm2 = 150; ///< of such a rest; less, and all is taken for it
/// Standard deviations of the smoothing against grain: a rim is thin, a pale middle is not.
constexpr double for_rim_mm = 0.6, for_pale_mm = 1.5;
constexpr double rim_within_mm = 8; ///< of the pale patch
constexpr int sectors = 24;
constexpr double rimmed = 1.0 / 3; ///< of the way round

/// L* of a wash without what is looked for: a + b i + c j.
struct Ground {
    double a = 0, b = 0, c = 0, grain_L = 0;
    double at(int i, int j) const { return a + b * i + c * j; }
};

/// Least squares through the cells, three times without what is beyond 2.5 standard deviations.
Ground plane_through(const grid::Field<float>& lstar, const std::vector<grid::Cell>& cells) {
    Ground g;
    double keep = 1e9;
    for (int pass = 0; pass < 4; ++pass) {
        double n = 0, mi = 0, mj = 0, mL = 0, ii = 0, jj = 0, ij = 0, iL = 0, jL = 0;
        const auto each = [&](auto&& see) {
            for (const grid::Cell& c : cells)
                if (std::abs(lstar(c.i, c.j) - g.at(c.i, c.j)) <= keep)
                    see(c.i, c.j, lstar(c.i, c.j));
        };
        each([&](double i, double j, double L) { n += 1, mi += i, mj += j, mL += L; });
        if (n == 0)
            return g;
        mi /= n, mj /= n, mL /= n;
        each([&](double i, double j, double L) {
            i -= mi, j -= mj, L -= mL;
            ii += i * i, jj += j * j, ij += i * j, iL += i * L, jL += j * L;
        });
        const double det = ii * jj - ij * ij;
        const bool flat = det <= 1e-6 * ii * jj || det <= 0; // a row of cells has no plane
        g.b = flat ? 0 : (iL * jj - jL * ij) / det, g.c = flat ? 0 : (jL * ii - iL * ij) / det;
        g.a = mL - g.b * mi - g.c * mj;
        std::vector<double> off;
        for (const grid::Cell& c : cells)
            off.push_back(lstar(c.i, c.j) - g.at(c.i, c.j));
        const double middle = median(off);
        g.a += middle;
        g.grain_L = spread(std::move(off));
        keep = 2.5 * g.grain_L + 1e-6;
    }
    return g;
}

/// What an act's water met, in one place.
class Place {
  public:
    Place(const Scene& scene,
          const sheet::ActRecord& act,
          const std::vector<grid::Cell>& water,
          const MarkRules& rules)
        : s_(scene), act_(act), water_(water), rules_(rules) {
        cut_out();
    }

    void find(std::vector<Mark>& marks) {
        const double cell2 = s_.cell_mm * s_.cell_mm;
        std::vector<grid::Cell> rest, all;
        const Mask near = widened(wet_, beyond_mm / s_.cell_mm), edge = widened(outside(), edge_mm / s_.cell_mm);
        for (int j = 0; j < in_.ny(); ++j)
            for (int i = 0; i < in_.nx(); ++i)
                if (in_(i, j)) {
                    all.push_back({i, j});
                    if (!near(i, j) && !edge(i, j))
                        rest.push_back({i, j});
                }
        const bool enough = static_cast<double>(rest.size()) * cell2 >= least_rest_mm2;
        soft_ = smoothed(lstar_, in_, std::max(for_rim_mm / s_.cell_mm, 0.5));
        ground_ = plane_through(soft_, enough ? rest : all);
        const grid::Field<float> softer = smoothed(lstar_, in_, std::max(for_pale_mm / s_.cell_mm, 0.7));
        const double grain_L = plane_through(softer, enough ? rest : all).grain_L;
        const double pale = std::max(rules_.bloom_pale_L, rules_.grains * grain_L);
        Mask is_pale(in_.nx(), in_.ny());
        for (const grid::Cell& c : all)
            is_pale(c.i, c.j) = softer(c.i, c.j) - ground_.at(c.i, c.j) >= pale;
        const Mask reach = widened(wet_, bridge_mm / s_.cell_mm);
        for (const auto& found : patches_of(is_pale)) {
            const std::vector<grid::Cell> patch = with_holes(found);
            const bool of_water =
                std::any_of(patch.begin(), patch.end(), [&](const grid::Cell& c) { return reach(c.i, c.j) != 0; });
            if (of_water && across_mm(patch) >= rules_.bloom_from_mm)
                if (auto mark = judged(patch); mark && !known(marks, *mark))
                    marks.push_back(*mark);
        }
    }

  private:
    const Scene& s_;
    const sheet::ActRecord& act_;
    const std::vector<grid::Cell>& water_;
    const MarkRules& rules_;
    int i0_ = 0, j0_ = 0; ///< of the piece cut out of the sheet
    grid::Field<float> lstar_, soft_;
    Mask in_, wet_; ///< the wash that is read; the water
    Ground ground_;

    double off_L(const grid::Cell& c) const { return soft_(c.i, c.j) - ground_.at(c.i, c.j); }
    double across_mm(const std::vector<grid::Cell>& patch) const {
        return 2 * std::sqrt(static_cast<double>(patch.size()) / M_PI) * s_.cell_mm;
    }
    /// The patch and what it encloses.
    std::vector<grid::Cell> with_holes(const std::vector<grid::Cell>& patch) const {
        int i1 = 0, j1 = 0, i0 = in_.nx(), j0 = in_.ny();
        for (const grid::Cell& c : patch)
            i0 = std::min(i0, c.i - 1), j0 = std::min(j0, c.j - 1), i1 = std::max(i1, c.i + 2),
            j1 = std::max(j1, c.j + 2);
        Mask other(i1 - i0, j1 - j0, 1); // what lies round it, in a frame one cell wider
        for (const grid::Cell& c : patch)
            other(c.i - i0, c.j - j0) = 0;
        grid::Geodesic out(other.nx(), other.ny(), [&](int i, int j) { return other(i, j) != 0; });
        out.spread(std::vector<grid::Cell>{{0, 0}});
        std::vector<grid::Cell> filled;
        for (int j = 0; j < other.ny(); ++j)
            for (int i = 0; i < other.nx(); ++i)
                if (!out.reached({i, j}))
                    filled.push_back({i + i0, j + j0});
        return filled;
    }
    /// What is not of the wash; beyond the sheet's border too.
    Mask outside() const {
        const int nx = in_.nx(), ny = in_.ny();
        Mask out(nx, ny);
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i)
                out(i, j) = !in_(i, j) || (i + i0_ == 0) || (j + j0_ == 0) || i + i0_ + 1 == s_.geometry.nx ||
                            j + j0_ + 1 == s_.geometry.ny;
        return out;
    }
    static bool known(const std::vector<Mark>& marks, const Mark& m) {
        return std::any_of(marks.begin(), marks.end(), [&](const Mark& old) {
            return old.kind == MarkKind::bloom &&
                   std::hypot(old.x_mm - m.x_mm, old.y_mm - m.y_mm) < 0.5 * std::max(old.size_mm, m.size_mm);
        });
    }

    /// For each combination of painted areas the first one that is the same but for the area of the drops: drops
    /// don't fill theirs, and run out of it.
    std::vector<int> kinds_of_combo() const {
        const plan::Step& step = s_.plan.steps[static_cast<std::size_t>(act_.step)];
        const bool only_drops =
            std::all_of(s_.record.acts.begin(), s_.record.acts.end(), [&](const sheet::ActRecord& act) {
                const plan::Step& other = s_.plan.steps[static_cast<std::size_t>(act.step)];
                return !paints(other) || other.area() != step.area() ||
                       std::holds_alternative<plan::Charge>(other.act);
            });
        const int drops = only_drops ? s_.map.index_of(step.area()) : bare_paper;
        std::vector<std::vector<int>> without = s_.map.combos;
        for (auto& combo : without)
            combo.erase(std::remove(combo.begin(), combo.end(), drops), combo.end());
        std::vector<int> kind;
        for (const auto& combo : without)
            kind.push_back(static_cast<int>(std::find(without.begin(), without.end(), combo) - without.begin()));
        return kind;
    }

    /// The water, and round it what has the same painted areas as most of it.
    void cut_out() {
        const sheet::Geometry& g = s_.geometry;
        const std::vector<int> kind = kinds_of_combo();
        const auto kind_at = [&](int i, int j) { return kind[static_cast<std::size_t>(s_.map.combo(i, j))]; };
        const int margin = static_cast<int>(around_mm / s_.cell_mm);
        int i1 = 0, j1 = 0;
        i0_ = g.nx, j0_ = g.ny;
        std::vector<int> of_combo(s_.map.combos.size(), 0);
        for (const grid::Cell& c : water_) {
            i0_ = std::min(i0_, c.i - margin), j0_ = std::min(j0_, c.j - margin);
            i1 = std::max(i1, c.i + margin + 1), j1 = std::max(j1, c.j + margin + 1);
            ++of_combo[static_cast<std::size_t>(kind_at(c.i, c.j))];
        }
        i0_ = std::max(0, i0_), j0_ = std::max(0, j0_), i1 = std::min(g.nx, i1), j1 = std::min(g.ny, j1);
        const int own = static_cast<int>(std::max_element(of_combo.begin(), of_combo.end()) - of_combo.begin());
        in_.resize(i1 - i0_, j1 - j0_), wet_.resize(i1 - i0_, j1 - j0_), lstar_.resize(i1 - i0_, j1 - j0_);
        for (int j = j0_; j < j1; ++j)
            for (int i = i0_; i < i1; ++i)
                in_(i - i0_, j - j0_) = kind_at(i, j) == own, lstar_(i - i0_, j - j0_) = s_.lstar(i, j);
        for (const grid::Cell& c : water_)
            if (kind_at(c.i, c.j) == own)
                wet_(c.i - i0_, c.j - j0_) = 1;
    }

    /// The darkest place beyond the patch, by direction from its middle.
    struct Darkest {
        double off_L = 0, mm = 0;
        bool seen = false;
    };
    std::array<Darkest, sectors> rim_round(const std::vector<grid::Cell>& patch, double ci, double cj) const {
        grid::Geodesic out(in_.nx(), in_.ny(), [&](int i, int j) { return in_(i, j) != 0; });
        std::array<Darkest, sectors> rim;
        for (const grid::Cell& c : out.spread(patch, static_cast<float>(rim_within_mm / s_.cell_mm))) {
            const double turn = std::atan2(c.j - cj, c.i - ci) / (2 * M_PI) + 1;
            Darkest& d = rim[static_cast<std::size_t>(turn * sectors) % sectors];
            const double off = off_L(c);
            if (out.distance(c) > 0 && (!d.seen || off < d.off_L))
                d = {off, out.distance(c) * s_.cell_mm, true};
        }
        return rim;
    }

    std::optional<Mark> judged(const std::vector<grid::Cell>& patch) const {
        double ci = 0, cj = 0;
        for (const grid::Cell& c : patch)
            ci += c.i, cj += c.j;
        ci /= static_cast<double>(patch.size()), cj /= static_cast<double>(patch.size());
        const double least = std::max(rules_.bloom_rim_L, rules_.grains * ground_.grain_L);
        std::vector<double> rim_L, rim_mm, pale, minutes;
        for (const Darkest& d : rim_round(patch, ci, cj))
            if (d.seen && d.off_L <= -least)
                rim_L.push_back(-d.off_L), rim_mm.push_back(d.mm);
        if (static_cast<double>(rim_L.size()) < rimmed * sectors)
            return std::nullopt;
        for (const grid::Cell& c : patch)
            pale.push_back(off_L(c));
        const double size = across_mm(patch) + 2 * median(rim_mm);
        std::array<int, 4> met{};
        for (const grid::Cell& c : water_)
            if (std::hypot(c.i - i0_ - ci, c.j - j0_ - cj) * s_.cell_mm <= 0.5 * size + bridge_mm)
                ++met[static_cast<std::size_t>(act_.cells.met(c.i, c.j))], minutes.push_back(minute_at(act_, c.i, c.j));
        if (minutes.empty())
            return std::nullopt;
        Mark m{.kind = MarkKind::bloom,
               .step = act_.step,
               .area = s_.area(act_),
               .minute = median(minutes),
               .x_mm = s_.x_mm(ci + i0_),
               .y_mm = s_.x_mm(cj + j0_),
               .size_mm = size,
               .dark_L = median(rim_L),
               .pale_L = median(pale),
               .met = plan::word(static_cast<plan::Stage>(std::max_element(met.begin(), met.end()) - met.begin())),
               .text = {}};
        m.text = fmt::format(
            "a bloom {:.0f} mm across at {:.0f}, {:.0f} mm, {:.0f} L* paler with a rim of {:.0f} L*: \"{}\" at "
            "{} met {} paper",
            m.size_mm, m.x_mm, m.y_mm, m.pale_L, m.dark_L, s_.name(act_), grid::clock_text(60 * m.minute), m.met);
        return m;
    }
};

/// What has brought paint to each cell up to a moment, asked for act after act as they began: each is looked at once.
class PaintSoFar {
  public:
    explicit PaintSoFar(const Scene& s) : s_(s), acts_(s.geometry.nx, s.geometry.ny), last_(s.geometry.nx, s.geometry.ny) {
        for (const sheet::ActRecord& act : s.record.acts)
            if (brings_paint(act))
                bring_.push_back(&act);
        std::stable_sort(bring_.begin(), bring_.end(), [](auto* a, auto* b) { return a->start_s < b->start_s; });
    }
    void up_to(double time_s) {
        for (; next_ < bring_.size() && bring_[next_]->start_s <= time_s; ++next_) {
            const sheet::ActCells& cells = bring_[next_]->cells;
            const sheet::CellFrame& f = cells.frame();
            for (int j = f.j0; j < f.j1; ++j)
                for (int i = f.i0; i < f.i1; ++i)
                    if (cells.touched(i, j) && (acts_(i, j) == 0 || last_(i, j) != bring_[next_]->step))
                        acts_(i, j) = std::min(acts_(i, j) + 1, 2), last_(i, j) = bring_[next_]->step;
        }
    }
    /// By another step than this one.
    bool at(int i, int j, int but_step) const { return acts_(i, j) > 1 || (acts_(i, j) == 1 && last_(i, j) != but_step); }

  private:
    const Scene& s_;
    std::vector<const sheet::ActRecord*> bring_;
    std::size_t next_ = 0;
    grid::Field<std::uint8_t> acts_; ///< 2: two or more
    grid::Field<int> last_;          ///< the step of the last of them
};

/// Where an act's water met paint that was moist or damp; false: nowhere.
bool water_on_paint(const sheet::ActRecord& act, const PaintSoFar& paint, Mask& out) {
    bool any = false;
    out.fill(0);
    const sheet::CellFrame& f = act.cells.frame();
    for (int j = f.j0; j < f.j1; ++j)
        for (int i = f.i0; i < f.i1; ++i)
            if (act.cells.touched(i, j) && paint.at(i, j, act.step)) {
                const auto met = act.cells.met(i, j);
                out(i, j) = met == sheet::CellStage::moist || met == sheet::CellStage::damp;
                any |= out(i, j) != 0;
            }
    return any;
}

} // namespace

void find_blooms(const Scene& scene, const MarkRules& rules, std::vector<Mark>& marks) {
    std::vector<const sheet::ActRecord*> acts;
    for (const sheet::ActRecord& act : scene.record.acts)
        if (act.water_kg > 0 && act.cells.known())
            acts.push_back(&act);
    std::stable_sort(acts.begin(), acts.end(), [](auto* a, auto* b) { return a->start_s < b->start_s; });
    PaintSoFar paint(scene);
    Mask water(scene.geometry.nx, scene.geometry.ny);
    for (const sheet::ActRecord* each : acts) {
        const sheet::ActRecord& act = *each;
        paint.up_to(act.start_s);
        if (!water_on_paint(act, paint, water))
            continue;
        for (const auto& patch : patches_of(widened(water, 0.5 * bridge_mm / scene.cell_mm))) {
            std::vector<grid::Cell> cells;
            for (const grid::Cell& c : patch)
                if (water(c.i, c.j))
                    cells.push_back(c);
            Place(scene, act, cells, rules).find(marks);
        }
    }
}

} // namespace tidemark::judge
