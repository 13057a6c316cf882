// An act as touches: those that only go over an area, and the way to the others.
#include "hand/works_detail.h"
#include "plan/coverage.h"

#include <algorithm>

namespace tidemark::hand {

namespace {

using grid::Field;

constexpr double wettest_film_m = 300e-6; // more runs off a sheet while it is being wetted (common practice)

Work wet(const plan::Plan& plan, const plan::Wet& act, const sheet::Geometry& g) {
    const Field<float> cover = plan::coverage(plan, act.area, g.nx, g.ny);
    const double faces = act.side == plan::Side::both ? 2 : 1;
    Work w;
    if (act.side != plan::Side::back)
        w = along(cells_in_rows(cover, g.cell_m), cover, act.water_kg_m2 / faces / 1000.0, act.pace_m2_s,
                  g.cell_area_m2());
    if (act.side != plan::Side::front)
        w.back_kg_m2 = act.water_kg_m2 / faces, w.back_share = cover;
    w.sheds_over_m = wettest_film_m;
    return w;
}

/// Over an area in rows; `film_m` of it where something is laid.
Work over(const plan::Plan& plan, int area, double film_m, double pace_m2_s, Does does, const sheet::Geometry& g) {
    const Field<float> cover = plan::coverage(plan, area, g.nx, g.ny);
    Work w = along(cells_in_rows(cover, g.cell_m), cover, film_m, pace_m2_s, g.cell_area_m2());
    for (Touch& t : w.touches)
        t.does = does;
    return w;
}

Work lift(const plan::Plan& plan, const plan::Lift& act, const sheet::Geometry& g) {
    Work w = over(plan, act.area, 0, act.pace_m2_s, Does::lift, g);
    w.tool = act.tool;
    return w;
}

/// Resist covers cells or does not: those from half covered on.
Work resist(const plan::Plan& plan, int area, double pace_m2_s, Does does, const sheet::Geometry& g) {
    Work w = over(plan, area, 0, pace_m2_s, does, g);
    std::erase_if(w.touches, [](const Touch& t) { return t.share < plan::half_covered; });
    return w;
}

/// Stiff paint follows the paper: its water is what its weight leaves beside pigment and gum.
Work body(const plan::Plan& plan, const plan::Body& act, const sheet::Geometry& g) {
    const plan::Mix& mix = plan.mixes[act.mix];
    double solids = mix.gum_mass_fraction;
    for (const auto& p : mix.pigments)
        solids += p.mass_fraction;
    const double water = std::max(1 - solids, 0.05); // drier paint is a pan
    Work w = over(plan, act.area, act.paint_kg_m2 * water / 1000.0, act.pace_m2_s, Does::lay_evenly, g);
    w.mix = act.mix;
    w.mix_per_water = 1 / water;
    return w;
}

struct MakeWork {
    const plan::Plan& plan;
    const sheet::SheetState& s;
    std::uint64_t seed;

    Work operator()(const plan::Wet& a) const { return wet(plan, a, s.geometry); }
    Work operator()(const plan::Wash& a) const { return wash(plan, a, s.geometry, s.tilt_direction_rad); }
    Work operator()(const plan::Charge& a) const { return charge(plan, a, s.geometry, seed); }
    Work operator()(const plan::Lift& a) const { return lift(plan, a, s.geometry); }
    Work operator()(const plan::Spatter& a) const { return spatter(plan, a, s, seed); }
    Work operator()(const plan::Spray& a) const { return spray(plan, a, s.geometry, seed); }
    Work operator()(const plan::Drybrush& a) const { return drybrush(plan, a, s); }
    Work operator()(const plan::Soften& a) const { return soften(plan, a, s.geometry); }
    Work operator()(const plan::Reserve& a) const { return resist(plan, a.area, a.pace_m2_s, Does::reserve, s.geometry); }
    Work operator()(const plan::Uncover& a) const { return resist(plan, a.area, a.pace_m2_s, Does::uncover, s.geometry); }
    Work operator()(const plan::Body& a) const { return body(plan, a, s.geometry); }
    Work operator()(const plan::Tilt&) const { return {}; }
    Work operator()(const plan::Dry&) const { return {}; }
};

} // namespace

Work along(const std::vector<Cell>& cells,
           const Field<float>& coverage,
           double film_m,
           double pace_m2_s,
           double cell_area_m2) {
    Work w;
    double area_m2 = 0;
    w.touches.reserve(cells.size());
    for (const Cell& c : cells) {
        const float share = coverage(c.i, c.j);
        w.touches.push_back({static_cast<float>(area_m2 / pace_m2_s), static_cast<float>(film_m * share), c.i, c.j,
                             share});
        area_m2 += share * cell_area_m2;
    }
    w.end_s = area_m2 / pace_m2_s;
    return w;
}

Work work_of(const plan::Plan& plan, const plan::Step& step, const sheet::SheetState& s) {
    check_numbers(step.act);
    const auto index = static_cast<std::uint64_t>(&step - plan.steps.data());
    return std::visit(MakeWork{plan, s, plan.seed * 1000003 + index}, step.act);
}

} // namespace tidemark::hand
