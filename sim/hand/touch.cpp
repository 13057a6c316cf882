#include "hand/touch.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "hand/paths.h"
#include "plan/coverage.h"
#include "sheet/stage.h"

namespace tidemark::hand {
namespace {

using grid::Field;
using sheet::SheetState;

constexpr double wettest_film_m = 300e-6; ///< more runs off a sheet while it is being wetted (common practice)
constexpr double least_depth_share = 1.0 / 6;

Work along(const std::vector<Cell>& cells, const Field<float>& coverage, double film_m, double pace_m2_s,
           double cell_area_m2) {
    Work w;
    double area_m2 = 0;
    w.touches.reserve(cells.size());
    for (const Cell& c : cells) {
        const float share = coverage(c.i, c.j);
        w.touches.push_back({static_cast<float>(area_m2 / pace_m2_s), static_cast<float>(film_m * share), c.i, c.j});
        area_m2 += share * cell_area_m2;
    }
    w.end_s = area_m2 / pace_m2_s;
    return w;
}

Work work_of_wet(const plan::Plan& plan, const plan::Wet& act, const sheet::Geometry& g) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    const double faces = act.side == plan::Side::both ? 2 : 1;
    Work w;
    if (act.side != plan::Side::back)
        w = along(cells_in_rows(cover, g.cell_m), cover, act.water_kg_m2 / faces / 1000.0, act.pace_m2_s, g.cell_area_m2());
    if (act.side != plan::Side::front) w.back_kg_m2 = act.water_kg_m2 / faces, w.back_share = cover;
    return w;
}

Work work_of_wash(const plan::Plan& plan, const plan::Wash& act, const sheet::Geometry& g, double downhill_rad) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    std::vector<Cell> cells;
    switch (act.travel) {
    case plan::Travel::rows: cells = cells_in_rows(cover, g.cell_m); break;
    case plan::Travel::downhill: cells = cells_downhill(cover, downhill_rad); break;
    case plan::Travel::order:
    case plan::Travel::strokes: // not read from a plan yet
    case plan::Travel::from_point: cells = cells_from(cover, g.cell_m, act.from_x_m, act.from_y_m); break;
    }
    Work w = along(cells, cover, act.film_m, act.pace_m2_s, g.cell_area_m2());
    w.mix = act.mix;
    return w;
}

/// A drop spreads as a cap, h0 (1 - r²/R²), over what of it falls on the area.
Work work_of_charge(const plan::Plan& plan, const plan::Charge& act, const sheet::Geometry& g, std::uint64_t seed) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    std::vector<Cell> inside;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i)
            if (cover(i, j) >= plan::half_covered) inside.push_back({i, j});
    Work w;
    w.mix = act.mix, w.brush = false;
    w.end_s = act.count * act.seconds_per_drop;
    std::mt19937_64 random(seed);
    const double R = act.drop_radius_m / g.cell_m;
    for (int k = 0; k < act.count && !inside.empty(); ++k) {
        const Cell c = inside[random() % inside.size()];
        const int reach = static_cast<int>(std::ceil(R));
        std::vector<Touch> drop;
        double sum = 0;
        for (int j = c.j - reach; j <= c.j + reach; ++j)
            for (int i = c.i - reach; i <= c.i + reach; ++i) {
                const double q = 1 - ((i - c.i) * (i - c.i) + (j - c.j) * (j - c.j)) / (R * R);
                if ((q <= 0 && (i != c.i || j != c.j)) || i < 0 || j < 0 || i >= g.nx || j >= g.ny) continue;
                if (cover(i, j) < plan::half_covered) continue; // the hand keeps to the shape
                const double height = std::max(q, 1e-3);
                drop.push_back({static_cast<float>(k * act.seconds_per_drop), static_cast<float>(height), i, j});
                sum += height;
            }
        const double scale = act.drop_m3 / (sum * g.cell_area_m2());
        for (Touch& t : drop) t.film_m = static_cast<float>(t.film_m * scale);
        w.touches.insert(w.touches.end(), drop.begin(), drop.end());
    }
    return w;
}

void wet_the_back(SheetState& s, const Work& w, sheet::Ledger& ledger, sheet::ActRecord& record) {
    const double room = sheet::half_capacity_kg_m2(s.paper), cell = s.geometry.cell_area_m2();
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const double brought = w.back_kg_m2 * w.back_share(i, j), had = s.back_kg_m2(i, j);
            if (brought <= 0) continue;
            s.back_kg_m2(i, j) = std::max(had, std::min(had + brought, room));
            const double soaked = s.back_kg_m2(i, j) - had;
            ledger.laid_kg += brought * cell;
            ledger.run_off_kg += (brought - soaked) * cell;
            record.water_kg += brought * cell;
            record.touched(i, j) = 1;
        }
}

} // namespace

Work work_of(const plan::Plan& plan, const plan::Step& step, const sheet::Geometry& g) {
    const int index = static_cast<int>(&step - plan.steps.data());
    if (const auto* wet = std::get_if<plan::Wet>(&step.act)) return work_of_wet(plan, *wet, g);
    if (const auto* wash = std::get_if<plan::Wash>(&step.act))
        return work_of_wash(plan, *wash, g, plan.tilt_direction_rad);
    if (const auto* charge = std::get_if<plan::Charge>(&step.act))
        return work_of_charge(plan, *charge, g, plan.seed * 1000003 + static_cast<std::uint64_t>(index));
    return {};
}

bool play(SheetState& s, const plan::Plan& plan, Work& w, double until_s, const LandOn& land, sheet::Ledger& ledger,
          sheet::ActRecord& record) {
    bool landed = false;
    if (w.back_kg_m2 > 0) wet_the_back(s, w, ledger, record), w.back_kg_m2 = 0, landed = true;
    const sheet::StageRule rule = sheet::stage_rule(s);
    const plan::Mix* mix = w.mix < 0 ? nullptr : &plan.mixes[w.mix];
    const double cell = s.geometry.cell_area_m2();
    for (; w.next < w.touches.size() && w.touches[w.next].at_s <= until_s; ++w.next) {
        const Touch& t = w.touches[w.next];
        const int i = t.i, j = t.j;
        if (s.surface(i, j) == static_cast<std::uint8_t>(sheet::Surface::reserved)) continue;
        if (!record.touched(i, j)) {
            record.touched(i, j) = 1;
            record.met(i, j) = static_cast<std::uint8_t>(sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j)));
        }
        const float had = s.film_m(i, j);
        if (had == 0) land.dry_cell(s, i, j);
        else if (w.brush) land.wet_cell(s, i, j);
        const float level = had > 0 ? t.film_m : std::max(t.film_m - s.relief_m(i, j), static_cast<float>(t.film_m * least_depth_share));
        const float depth = mix ? level : std::min(level, static_cast<float>(wettest_film_m));
        s.film_m(i, j) = had + depth;
        s.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::wetted);
        const double film = static_cast<double>(s.film_m(i, j)) - had;
        const double surplus = static_cast<double>(level) - depth;
        ledger.laid_kg += (film + surplus) * 1000.0 * cell;
        ledger.run_off_kg += surplus * 1000.0 * cell;
        record.water_kg += (film + surplus) * 1000.0 * cell;
        landed = true;
        if (!mix) continue;
        // Half of what is brought starts in either half of the film: a brush mixes what it lays.
        const auto add = [&](Field<float>& lower, Field<float>& upper, double kg_m2) {
            const float a = lower(i, j), b = upper(i, j), half = static_cast<float>(0.5 * kg_m2);
            lower(i, j) = a + half, upper(i, j) = b + half;
            return ((static_cast<double>(lower(i, j)) - a) + (static_cast<double>(upper(i, j)) - b)) * cell;
        };
        for (const plan::PigmentShare& p : mix->pigments) {
            auto& state = s.pigments[p.pigment];
            const double kg = add(state.afloat_lower, state.afloat_upper, p.mass_fraction * film * 1000.0);
            ledger.pigment_laid_kg[p.pigment] += kg;
            record.pigment_kg[p.pigment] += kg;
        }
        ledger.gum_laid_kg += add(s.gum_lower_kg_m2, s.gum_upper_kg_m2, mix->gum_mass_fraction * film * 1000.0);
    }
    return landed;
}

} // namespace tidemark::hand
