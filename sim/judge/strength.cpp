#include "judge/strength.h"

#include "colour/lab.h"
#include "judge/planned_detail.h"
#include "plan/coverage.h"
#include "reference/value_map.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace tidemark::judge {

namespace {

constexpr double finest_cell_m = 0.5e-3, most_cells = 60'000;
constexpr std::size_t most_grounds = 256;
constexpr int trials = 32, halvings = 16; // a sixth of an octave each, then each halved

double lstar(const colour::Surface& surface, const colour::BodyReflectance& body) {
    return colour::lstar_from_Y(colour::xyz_from(colour::seen_through(surface, body)).Y);
}

/// Where an act is to be seen when all is done, and what lies below it there.
struct Place {
    std::vector<std::pair<double, const Ground*>> grounds; ///< weights, which add to 1
    double open_share = 0, reference_L = std::numeric_limits<double>::quiet_NaN();

    template <class See> double mean(See&& see) const {
        double sum = 0;
        for (const auto& [weight, ground] : grounds)
            sum += weight * see(*ground);
        return sum;
    }
};

double dry_L(const Place& place, const MixOptics& mix, double load) {
    return place.mean([&](const Ground& g) { return lstar(colour::dry_matt, mix.over(g.dry, load)); });
}

void keep_the_most_common(Place& place) {
    auto& all = place.grounds;
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    while (all.size() > most_grounds || (!all.empty() && all.back().first <= 0))
        all.pop_back();
    const double sum = std::accumulate(all.begin(), all.end(), 0.0, [](double s, const auto& g) { return s + g.first; });
    for (auto& g : all)
        g.first /= sum;
}

/// `seen`: how much of each cell, in 255ths, the act covers and no later one does.
Place place_of(const grid::Field<float>& cover,
               const grid::Field<std::uint8_t>& seen,
               const Grounds& grounds,
               const reference::ValueMap* ref) {
    double all = 0, open = 0, of_reference = 0;
    std::vector<double> weight(grounds.all().size()), weight_all(weight);
    for (int j = 0; j < cover.ny(); ++j)
        for (int i = 0; i < cover.nx(); ++i) {
            const double now = cover(i, j) * cover(i, j), later = now > 0 ? seen(i, j) / 255.0 * cover(i, j) : 0;
            all += now, open += later;
            weight_all[grounds.at(i, j)] += now, weight[grounds.at(i, j)] += later;
            if (ref)
                of_reference += later * ref->at(i, j);
        }
    Place p;
    p.open_share = all > 0 ? open / all : 0;
    const bool is_open = p.open_share >= least_open_share;
    if (ref && is_open)
        p.reference_L = of_reference / open;
    for (std::size_t k = 0; k < weight.size(); ++k)
        p.grounds.push_back({is_open ? weight[k] : weight_all[k], &grounds.all()[k]});
    if (all <= 0)
        p.grounds.assign(1, {1.0, &grounds.all().front()}); // reserved altogether, or finer than a cell can show
    keep_the_most_common(p);
    return p;
}

/// Steps below more than half of it, top one first.
std::vector<int> over(const Place& place) {
    std::vector<std::pair<int, double>> share; // in the order in which they are met
    for (const auto& [weight, ground] : place.grounds)
        for (const int step : ground->over)
            if (step >= 0) {
                auto found = std::find_if(share.begin(), share.end(), [&](const auto& s) { return s.first == step; });
                if (found == share.end())
                    found = share.insert(share.end(), {step, 0.0});
                found->second += weight;
            }
    std::vector<int> steps;
    for (const auto& [step, weight] : share)
        if (weight > 0.5)
            steps.push_back(step);
    return steps;
}

/// The factor nearest to 1 at which dry_L is the reference's, if there is one.
void ask(Strength& s, const Place& place, const MixOptics& mix, double load) {
    std::vector<double> factor(trials + 1), L(trials + 1);
    for (int k = 0; k <= trials; ++k) {
        factor[k] = least_factor * std::pow(most_factor / least_factor, static_cast<double>(k) / trials);
        L[k] = dry_L(place, mix, factor[k] * load);
    }
    s.darkest_L = *std::min_element(L.begin(), L.end());
    s.lightest_L = *std::max_element(L.begin(), L.end());
    if (std::abs(s.dry_L - s.reference_L) <= close_L)
        return void(s.asks = Asks::close);
    s.asks = s.reference_L < s.dry_L ? Asks::never_darker : Asks::never_lighter;
    double nearest = std::numeric_limits<double>::infinity();
    for (int k = 0; k < trials; ++k) {
        if ((L[k] < s.reference_L) == (L[k + 1] < s.reference_L))
            continue;
        double low = factor[k], high = factor[k + 1];
        const bool rises = L[k] < s.reference_L;
        for (int n = 0; n < halvings; ++n) {
            const double middle = 0.5 * (low + high);
            ((dry_L(place, mix, middle * load) < s.reference_L) == rises ? low : high) = middle;
        }
        const double found = 0.5 * (low + high), away = std::abs(std::log2(found));
        if (away < nearest)
            nearest = away, s.factor = found, s.asks = Asks::other_load;
    }
    s.second_pass = s.asks == Asks::other_load && std::abs(dry_L(place, mix, 2 * load) - s.reference_L) <= close_L;
}

Strength strength_of(int step, const Planned& act, const MixOptics& mix, const Place& place) {
    Strength s;
    s.step = step, s.mix = act.mix;
    s.dry_L = dry_L(place, mix, act.mix_kg_m2);
    s.wet_L = place.mean([&](const Ground& g) { return lstar(colour::under_water, mix.over(g.wet, act.mix_kg_m2)); });
    s.below_L = place.mean([](const Ground& g) { return lstar(colour::dry_matt, g.dry); });
    s.over = over(place);
    s.on_paper = place.mean([](const Ground& g) { return g.over[0] < 0 ? 1.0 : 0.0; }) > 0.5;
    s.open_share = place.open_share;
    s.reference_L = act.broken ? std::numeric_limits<double>::quiet_NaN() : place.reference_L;
    if (std::isfinite(s.reference_L))
        ask(s, place, mix, act.mix_kg_m2);
    return s;
}

/// Goes through the acts, forwards or backwards, with the cover that each really gets, resist apart.
struct Sheet {
    const plan::Plan& plan;
    Cover cover;
    std::vector<grid::Field<std::uint8_t>> kept; ///< by step: where resist is on; empty: nowhere

    Sheet(const plan::Plan& p, const std::vector<int>& order, int nx, int ny) : plan(p), cover(p, nx, ny) {
        kept.resize(p.steps.size());
        grid::Field<std::uint8_t> resist;
        for (const int k : order) {
            const plan::Step& step = plan.steps[k];
            const bool puts_on = std::holds_alternative<plan::Reserve>(step.act);
            if (puts_on && resist.empty())
                resist.resize(nx, ny);
            if (puts_on || (std::holds_alternative<plan::Uncover>(step.act) && !resist.empty())) {
                const grid::Field<float> area = cover.of(step);
                for (int j = 0; j < ny; ++j)
                    for (int i = 0; i < nx; ++i)
                        if (area(i, j) >= plan::half_covered)
                            resist(i, j) = puts_on;
            }
            kept[k] = resist;
        }
    }
    grid::Field<float> of(int k) {
        grid::Field<float> c = cover.of(plan.steps[k]);
        if (!kept[k].empty())
            for (int j = 0; j < c.ny(); ++j)
                for (int i = 0; i < c.nx(); ++i)
                    c(i, j) *= 1 - kept[k](i, j);
        return c;
    }
};

double cells_of(const grid::Field<float>& cover) {
    double sum = 0;
    for (int j = 0; j < cover.ny(); ++j)
        for (int i = 0; i < cover.nx(); ++i)
            sum += cover(i, j);
    return sum;
}

/// What of each act no later one covers, in 255ths of a cell; empty for acts that lay nothing.
std::vector<grid::Field<std::uint8_t>> seen_of(Sheet& sheet, const std::vector<int>& order) {
    const int nx = sheet.cover.nx(), ny = sheet.cover.ny();
    std::vector<grid::Field<std::uint8_t>> all(sheet.plan.steps.size());
    grid::Field<float> open(nx, ny, 1.0f);
    for (auto k = order.rbegin(); k != order.rend(); ++k) {
        const Planned act = planned(sheet.plan, sheet.plan.steps[*k], 0);
        if (!act.covers)
            continue;
        const grid::Field<float> cover = sheet.of(*k);
        if (act.mix >= 0)
            all[*k].resize(nx, ny);
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i) {
                if (act.mix >= 0)
                    all[*k](i, j) = static_cast<std::uint8_t>(std::lround(255 * cover(i, j) * open(i, j)));
                open(i, j) *= 1 - cover(i, j);
            }
    }
    return all;
}

std::pair<int, int> cells(const plan::Plan& plan) {
    const double cell_m = std::max(finest_cell_m, std::sqrt(plan.width_m * plan.height_m / most_cells));
    const auto along = [&](double m) { return std::max(1, static_cast<int>(std::lround(m / cell_m))); };
    return {along(plan.width_m), along(plan.height_m)};
}

} // namespace

std::vector<Strength> judge_strength(const plan::Plan& plan, const std::vector<int>& order) {
    const auto [nx, ny] = cells(plan);
    const double cell_m2 = plan.width_m * plan.height_m / (static_cast<double>(nx) * ny);
    reference::ValueMap ref;
    if (plan.reference)
        ref = reference::resized(reference::value_map(plan.reference->picture), nx, ny);
    Sheet sheet(plan, order, nx, ny);
    const std::vector<grid::Field<std::uint8_t>> seen = seen_of(sheet, order);
    Grounds grounds(plan.paper, nx, ny);
    std::vector<Strength> all;
    for (const int k : order) {
        if (seen[k].empty())
            continue;
        const grid::Field<float> cover = sheet.of(k);
        const Planned act = planned(plan, plan.steps[k], cells_of(cover) * cell_m2);
        const MixOptics mix = optics_of(plan, plan.mixes[act.mix]);
        all.push_back(strength_of(k, act, mix, place_of(cover, seen[k], grounds, plan.reference ? &ref : nullptr)));
        if (!act.broken)
            grounds.lay(k, mix, act.mix_kg_m2, cover);
    }
    return all;
}

reference::ValueMap planned_values(const plan::Plan& plan, const std::vector<int>& order) {
    const auto [nx, ny] = cells(plan);
    const double cell_m2 = plan.width_m * plan.height_m / (static_cast<double>(nx) * ny);
    Sheet sheet(plan, order, nx, ny);
    Grounds grounds(plan.paper, nx, ny);
    for (const int k : order) {
        if (planned(plan, plan.steps[k], 0).mix < 0)
            continue;
        const grid::Field<float> cover = sheet.of(k);
        const Planned act = planned(plan, plan.steps[k], cells_of(cover) * cell_m2);
        if (!act.broken)
            grounds.lay(k, optics_of(plan, plan.mixes[act.mix]), act.mix_kg_m2, cover);
    }
    std::vector<float> of_pile;
    for (const Ground& g : grounds.all())
        of_pile.push_back(static_cast<float>(lstar(colour::dry_matt, g.dry)));
    reference::ValueMap map{nx, ny, {}};
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            map.lstar.push_back(of_pile[grounds.at(i, j)]);
    return map;
}

} // namespace tidemark::judge
