// What falls or is dabbed: charged drops and short strokes, spatter, spray.
#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tidemark::hand {

namespace {

using grid::Field;

constexpr double spray_tick_s = 0.5;
constexpr double most_expected = 8; // droplets drawn in one go

std::vector<Cell> half_covered_cells(const Field<float>& cover) {
    std::vector<Cell> cells;
    for (int j = 0; j < cover.ny(); ++j)
        for (int i = 0; i < cover.nx(); ++i)
            if (cover(i, j) >= plan::half_covered)
                cells.push_back({i, j});
    return cells;
}

/// A cap along a segment through a cell's centre, in cells: 1 - d²/R² at the distance d from it.
struct Cap {
    Cell centre;
    double half_x = 0, half_y = 0, radius = 1;

    double height(int i, int j) const {
        const double x = i - centre.i, y = j - centre.j, length2 = half_x * half_x + half_y * half_y;
        const double along = length2 > 0 ? std::clamp((x * half_x + y * half_y) / length2, -1.0, 1.0) : 0;
        const double dx = x - along * half_x, dy = y - along * half_y;
        const double q = 1 - (dx * dx + dy * dy) / (radius * radius);
        return x == 0 && y == 0 ? std::max(q, 1e-3) : q;
    }
    template <class See> void each(See&& see) const {
        const int reach_x = static_cast<int>(std::ceil(radius + std::abs(half_x)));
        const int reach_y = static_cast<int>(std::ceil(radius + std::abs(half_y)));
        for (int j = centre.j - reach_y; j <= centre.j + reach_y; ++j)
            for (int i = centre.i - reach_x; i <= centre.i + reach_x; ++i)
                if (const double q = height(i, j); q > 0)
                    see(i, j, q);
    }
};

/// The touches of `volume_m3` in a cap. What is not kept is brought to the rest, or is lost beside the sheet.
enum class Rest { brought, lost };
template <class Keep>
void drop(std::vector<Touch>& touches, const Cap& cap, double volume_m3, double at_s, double cell_m2, Rest rest, Keep&& keep) {
    double sum = 0;
    cap.each([&](int i, int j, double q) { sum += rest == Rest::lost || keep(i, j) ? q : 0; });
    const double scale = volume_m3 / (sum * cell_m2);
    cap.each([&](int i, int j, double q) {
        if (keep(i, j))
            touches.push_back({static_cast<float>(at_s), static_cast<float>(q * scale), i, j, 1, Does::lay_evenly});
    });
}

/// Cells within `reach` cells of the area.
std::vector<Cell> grown(const Field<float>& cover, double reach) {
    const int nx = cover.nx(), ny = cover.ny(), r = static_cast<int>(std::floor(reach));
    Field<std::uint8_t> near(nx, ny);
    const auto in = [&](int i, int j) { return i >= 0 && j >= 0 && i < nx && j < ny; };
    const auto covered = [&](int i, int j) { return in(i, j) && cover(i, j) >= plan::half_covered; };
    for (const Cell& c : half_covered_cells(cover)) {
        near(c.i, c.j) = 1;
        if (covered(c.i - 1, c.j) && covered(c.i + 1, c.j) && covered(c.i, c.j - 1) && covered(c.i, c.j + 1))
            continue;
        for (int dj = -r; dj <= r; ++dj)
            for (int di = -r; di <= r; ++di)
                if (di * di + dj * dj <= reach * reach && in(c.i + di, c.j + dj))
                    near(c.i + di, c.j + dj) = 1;
    }
    std::vector<Cell> cells;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            if (near(i, j))
                cells.push_back({i, j});
    return cells;
}

/// How many events happen when `expected` do on average (Poisson; Knuth's product of chances).
int how_many(Dice& dice, double expected) {
    int n = 0;
    for (; expected > 0; expected -= most_expected) {
        const double none = std::exp(-static_cast<float>(std::min(expected, most_expected)));
        for (double p = dice.unit(); p > none; p *= dice.unit())
            ++n;
    }
    return n;
}

} // namespace

Work charge(const plan::Plan& plan, const plan::Charge& act, const sheet::Geometry& g, std::uint64_t seed) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    const std::vector<Cell> inside = half_covered_cells(cover);
    const auto keep = [&](int i, int j) { // the hand keeps to the shape
        return i >= 0 && j >= 0 && i < g.nx && j < g.ny && cover(i, j) >= plan::half_covered;
    };
    Work w;
    w.mix = act.mix, w.brush = act.stroke_m > 0;
    w.end_s = act.count * act.seconds_per_drop;
    Dice dice(seed);
    for (int k = 0; k < act.count && !inside.empty(); ++k) {
        Cap cap{.centre = inside[dice.below(inside.size())], .radius = act.drop_radius_m / g.cell_m};
        if (act.stroke_m > 0) {
            const float angle = static_cast<float>(2 * std::numbers::pi * dice.unit());
            const double half = 0.5 * act.stroke_m / g.cell_m;
            cap.half_x = half * std::cos(angle), cap.half_y = half * std::sin(angle);
        }
        drop(w.touches, cap, act.drop_m3, k * act.seconds_per_drop, g.cell_area_m2(), Rest::brought, keep);
    }
    return w;
}

Work spatter(const plan::Plan& plan, const plan::Spatter& act, const sheet::SheetState& s, std::uint64_t seed) {
    const sheet::Geometry& g = s.geometry;
    const std::vector<Cell> cells = grown(plan::coverage(plan, act.area, g.nx, g.ny), act.largest_m / g.cell_m);
    // A cap of contact angle θ on a mark of radius R is R tan(θ/2) = R t high and holds π R³ t (3 + t²) / 6.
    const double t = std::tan(0.5 * s.paper.theta_advancing_rad), per_R3 = std::numbers::pi * t * (3 + t * t) / 6;
    Work w;
    w.mix = act.mix, w.brush = false;
    w.end_s = act.seconds;
    Dice dice(seed);
    for (int k = 0; k < act.count && !cells.empty(); ++k) {
        const Cell centre = cells[dice.below(cells.size())];
        const float ratio = static_cast<float>(act.largest_m / act.smallest_m);
        const double R = 0.5 * act.smallest_m * std::pow(ratio, static_cast<float>(dice.unit()));
        drop(w.touches, {.centre = centre, .radius = R / g.cell_m}, per_R3 * R * R * R, k * act.seconds / act.count,
             g.cell_area_m2(), Rest::lost, [&](int i, int j) { return s.inside(i, j); });
    }
    return w;
}

Work spray(const plan::Plan& plan, const plan::Spray& act, const sheet::Geometry& g, std::uint64_t seed) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    const double droplet_m3 = std::numbers::pi / 6 * act.droplet_m * act.droplet_m * act.droplet_m;
    const double on_cell = act.water_kg_m2 / 1000.0 * g.cell_area_m2() / droplet_m3;
    const int ticks = std::max(1, static_cast<int>(std::ceil(act.seconds / spray_tick_s)));
    Work w;
    w.mix = act.mix, w.brush = false;
    w.end_s = act.seconds;
    Dice dice(seed);
    for (int tick = 0; tick < ticks; ++tick)
        for (int j = 0; j < g.ny; ++j)
            for (int i = 0; i < g.nx; ++i) {
                const int n = cover(i, j) > 0 ? how_many(dice, cover(i, j) * on_cell / ticks) : 0;
                if (n > 0)
                    w.touches.push_back({static_cast<float>(act.seconds * tick / ticks),
                                         static_cast<float>(n * droplet_m3 / g.cell_area_m2()), i, j, 1,
                                         Does::lay_evenly});
            }
    return w;
}

} // namespace tidemark::hand
