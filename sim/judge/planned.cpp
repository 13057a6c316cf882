#include "judge/planned_detail.h"
#include "plan/coverage.h"
#include "sheet/look.h"

#include <algorithm>
#include <cmath>

namespace tidemark::judge {

namespace {

constexpr int quarters = 4;

struct Load {
    const plan::Plan& plan;
    double area_m2;

    Planned laid(int mix, double mix_kg_m2, bool broken = false) const {
        if (mix < 0 || plan.mixes[mix].pigments.empty())
            return {};
        return {.mix = mix, .mix_kg_m2 = mix_kg_m2, .broken = broken, .covers = true};
    }
    Planned operator()(const plan::Wash& a) const { return laid(a.mix, a.film_m * 1000.0); }
    Planned operator()(const plan::Charge& a) const {
        return laid(a.mix, area_m2 > 0 ? a.count * a.drop_m3 * 1000.0 / area_m2 : 0);
    }
    Planned operator()(const plan::Spray& a) const { return laid(a.mix, a.water_kg_m2); }
    Planned operator()(const plan::Drybrush& a) const { return laid(a.mix, a.film_m * 1000.0, true); }
    Planned operator()(const plan::Body& a) const { return laid(a.mix, a.paint_kg_m2); }
    Planned operator()(const plan::Lift&) const { return {.covers = true}; }
    template <class Other> Planned operator()(const Other&) const { return {}; }
};

/// Marks the cells whose centre a stroke passes within half its mark.
void reach(const plan::Wash& wash, double cell_x_m, double cell_y_m, grid::Field<std::uint8_t>& near) {
    const double half = 0.5 * wash.mark_m();
    const auto first = [](double m, double cell_m) { return std::max(0, static_cast<int>(m / cell_m) - 1); };
    for (const plan::Stroke& stroke : wash.strokes)
        for (std::size_t k = 0; k + 1 < stroke.size(); ++k) {
            const plan::Point &a = stroke[k], &b = stroke[k + 1];
            const double right = std::max(a.x_m, b.x_m) + half, foot = std::max(a.y_m, b.y_m) + half;
            for (int j = first(std::min(a.y_m, b.y_m) - half, cell_y_m); j < near.ny() && j * cell_y_m < foot; ++j)
                for (int i = first(std::min(a.x_m, b.x_m) - half, cell_x_m); i < near.nx() && i * cell_x_m < right; ++i)
                    if (plan::squared_distance_m2(a, b, (i + 0.5) * cell_x_m, (j + 0.5) * cell_y_m) <= half * half)
                        near(i, j) = 1;
        }
}

} // namespace

Planned planned(const plan::Plan& plan, const plan::Step& step, double area_m2) {
    return std::visit(Load{plan, area_m2}, step.act);
}

MixOptics optics_of(const plan::Plan& plan, const plan::Mix& mix) {
    MixOptics o;
    for (const plan::PigmentShare& share : mix.pigments)
        for (int k = 0; k < colour::bands; ++k) {
            o.K[k] += static_cast<float>(share.mass_fraction * plan.pigments[share.pigment].K_m2_kg[k]);
            o.S[k] += static_cast<float>(share.mass_fraction * plan.pigments[share.pigment].S_m2_kg[k]);
        }
    return o;
}

colour::BodyReflectance MixOptics::over(const colour::BodyReflectance& ground, double mix_kg_m2) const {
    colour::Bands KX, SX;
    const float load = static_cast<float>(mix_kg_m2);
    for (int k = 0; k < colour::bands; ++k)
        KX[k] = load * K[k], SX[k] = load * S[k];
    return colour::km_over(KX, SX, ground);
}

Cover::Cover(const plan::Plan& plan, int nx, int ny) : plan_(plan), nx_(nx), ny_(ny) {}

grid::Field<float> Cover::of(const plan::Step& step) {
    auto found = areas_.find(step.area());
    if (found == areas_.end())
        found = areas_.emplace(step.area(), plan::coverage(plan_, step.area(), nx_, ny_)).first;
    grid::Field<float> cover = found->second;
    const auto* wash = std::get_if<plan::Wash>(&step.act);
    if (!wash || wash->travel != plan::Travel::strokes)
        return cover;
    grid::Field<std::uint8_t> near(nx_, ny_);
    reach(*wash, plan_.width_m / nx_, plan_.height_m / ny_, near);
    for (int j = 0; j < ny_; ++j)
        for (int i = 0; i < nx_; ++i)
            cover(i, j) *= near(i, j);
    return cover;
}

Grounds::Grounds(const materials::Paper& paper, int nx, int ny) : which_(nx, ny) {
    const colour::BodyReflectance dry = sheet::ground_of(paper);
    grounds_.push_back({.dry = dry, .wet = colour::wetted(dry, 1)});
}

/// Piles that no cell has any more are dropped, so that there are never more of them than cells.
void Grounds::lay(int step, const MixOptics& mix, double mix_kg_m2, const grid::Field<float>& cover) {
    std::vector<Ground> now;
    std::vector<int> becomes(grounds_.size() * (quarters + 1), -1);
    for (int j = 0; j < which_.ny(); ++j)
        for (int i = 0; i < which_.nx(); ++i) {
            const int share = static_cast<int>(std::lround(quarters * cover(i, j)));
            int& to = becomes[which_(i, j) * (quarters + 1) + share];
            if (to < 0) {
                Ground g = grounds_[which_(i, j)];
                if (share > 0) {
                    const double load = mix_kg_m2 * share / quarters;
                    g = {.dry = mix.over(g.dry, load), .wet = mix.over(g.wet, load), .over = {step, g.over[0], g.over[1]}};
                }
                to = static_cast<int>(now.size());
                now.push_back(g);
            }
            which_(i, j) = to;
        }
    grounds_ = std::move(now);
}

} // namespace tidemark::judge
