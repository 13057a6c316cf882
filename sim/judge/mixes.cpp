#include "judge/mixes.h"

#include "grid/units.h"

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <utility>

namespace tidemark::judge {

namespace {

constexpr double extra_from = 1.25, extra_to = 4.0 / 3.0; // palette and brush: common practice
constexpr int clean_water = -1;

/// Index of the mix that a step lays, clean_water for wetting, -2 for an act that brings nothing.
int mix_of(const plan::Plan& p, int step) {
    if (step < 0 || step >= static_cast<int>(p.steps.size()))
        return -2;
    return std::visit(
        [&](const auto& act) {
            using A = std::decay_t<decltype(act)>;
            if constexpr (requires { act.mix; }) // water is one thing, whether a mix or no mix says so
                return act.mix < 0 || p.mixes[act.mix].pigments.empty() ? clean_water : act.mix;
            else
                return std::is_same_v<A, plan::Wet> || std::is_same_v<A, plan::Soften> ? clean_water : -2;
        },
        p.steps[step].act);
}

double whole_mL(double mL) { return mL > 0 ? std::ceil(mL - 1e-9) : 0; }

/// The charge fills it, each refill brings what it had released.
double taken_mL(const materials::Brush& b, int loads) {
    return grid::mL_from_m3(b.hold_m3 + (loads - 1) * b.release_m3);
}

void add_wash(MixAmount& m, const plan::Wash& wash, const sheet::ActRecord& act) {
    const double mL = grid::mL_from_m3(act.water_kg / grid::water_kg_m3);
    if (!(mL > 0))
        return;
    m.washes_mL.push_back(mL);
    if (!wash.brush || act.brush_loads == 0)
        return;
    auto use = std::find_if(m.brushes.begin(), m.brushes.end(), [&](const BrushUse& b) { return b.brush == wash.brush->id; });
    if (use == m.brushes.end())
        use = m.brushes.insert(use, BrushUse{.brush = wash.brush->id});
    ++use->washes, use->loads += act.brush_loads;
    use->laid_mL += mL, use->taken_mL += taken_mL(*wash.brush, act.brush_loads);
}

/// A quarter to a third more than was laid, and what the brushes took up with what was laid without them.
void prepare(MixAmount& m) {
    double needed_mL = m.laid_mL;
    for (const BrushUse& b : m.brushes)
        needed_mL += b.stays_mL();
    m.prepare_from_mL = whole_mL(std::max(extra_from * m.laid_mL, needed_mL));
    m.prepare_to_mL = whole_mL(std::max(extra_to * m.laid_mL, needed_mL));
}

MixAmount amount_of(const plan::Plan& p, const sheet::Record& r, int mix) {
    MixAmount m;
    m.mix = mix == clean_water ? "clean water" : p.mixes[mix].name;
    std::vector<double> kg(p.pigments.size(), 0.0);
    double water_kg = 0;
    for (const auto& act : r.acts) {
        if (mix_of(p, act.step) != mix)
            continue;
        water_kg += act.water_kg;
        for (std::size_t k = 0; k < kg.size() && k < act.pigment_kg.size(); ++k)
            kg[k] += act.pigment_kg[k];
        if (const auto* wash = std::get_if<plan::Wash>(&p.steps[act.step].act))
            add_wash(m, *wash, act);
    }
    m.laid_mL = grid::mL_from_m3(water_kg / grid::water_kg_m3);
    prepare(m);
    if (mix == clean_water)
        return m;
    const double more = m.laid_mL > 0 ? m.prepare_to_mL / m.laid_mL : 0;
    for (const auto& share : p.mixes[mix].pigments)
        m.pigments.push_back({p.pigments[share.pigment].id, 1e3 * kg[share.pigment], 1e3 * kg[share.pigment] * more});
    return m;
}

} // namespace

std::vector<MixAmount> judge_mixes(const plan::Plan& p, const sheet::Record& r) {
    std::vector<MixAmount> out;
    for (int m = 0; m < static_cast<int>(p.mixes.size()); ++m) {
        MixAmount amount = amount_of(p, r, m);
        if (amount.laid_mL > 0 || !amount.pigments.empty())
            out.push_back(std::move(amount));
    }
    MixAmount water = amount_of(p, r, clean_water);
    if (water.laid_mL > 0)
        out.push_back(std::move(water));
    return out;
}

BrushUse with_brush(const std::vector<double>& washes_mL, const materials::Brush& brush) {
    BrushUse use{.brush = brush.id};
    const double release_mL = grid::mL_from_m3(brush.release_m3);
    for (const double mL : washes_mL) {
        const int loads = std::max(1, static_cast<int>(std::ceil(mL / release_mL - 1e-9)));
        ++use.washes, use.loads += loads;
        use.laid_mL += mL, use.taken_mL += taken_mL(brush, loads);
    }
    return use;
}

} // namespace tidemark::judge
