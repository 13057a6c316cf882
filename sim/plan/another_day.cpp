#include "plan/another_day.h"

#include "grid/units.h"
#include "grid/within.h"
#include "plan/ranges_detail.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace tidemark::plan {

namespace {

/// A number of the plan, in SI, times a factor and held to its range, which is in a painter's unit.
void scale(double& value, double factor, const Range& range, double si_per_unit) {
    value = std::clamp(value * factor, range.lo * si_per_unit, range.hi * si_per_unit);
}

constexpr double g_m2 = 1e-3, um = 1e-6, cm2_s = 1e-4, cm_s = 1e-2;

struct OnDay {
    const Day& day;
    void operator()(Wet& a) const {
        scale(a.water_kg_m2, day.water, wet_water, g_m2);
        scale(a.pace_m2_s, day.pace, wet_pace, cm2_s);
    }
    void operator()(Wash& a) const {
        scale(a.film_m, day.water, wash_film, um);
        scale(a.pace_m2_s, day.pace, hand_pace, cm2_s);
    }
    void operator()(Spray& a) const { scale(a.water_kg_m2, day.water, spray_water, g_m2); }
    void operator()(Drybrush& a) const {
        scale(a.film_m, day.water, drybrush_film, um);
        scale(a.pace_m2_s, day.pace, hand_pace, cm2_s);
    }
    void operator()(Soften& a) const {
        scale(a.water_kg_m2, day.water, soften_water, g_m2);
        scale(a.speed_m_s, day.pace, soften_speed, cm_s);
    }
    template <class Act> void operator()(Act& a) const { // lift, reserve, uncover, body: a pace alone
        if constexpr (requires { a.pace_m2_s; })
            scale(a.pace_m2_s, day.pace, hand_pace, cm2_s);
    }
};

double rounded(double value, double unit) { return std::round(value / unit) * unit; }

/// The share of a normal spread below x σ: its series, every term of one sign (Marsaglia 2004, J. Stat. Softw. 11(4)).
/// No exp: exact to rounding, but for the last factor, a product of the same steps everywhere.
double normal_share(double x) {
    double sum = x, term = x, gauss = 1;
    for (int k = 1; k < 200; ++k) {
        term *= x * x / (2 * k + 1);
        sum += term;
    }
    const double half = x * x / 2 / 64; // exp(-x²/2) by its series at a 64th, squared six times
    double part = 1;
    gauss = 1;
    for (int k = 1; k < 12; ++k) {
        part *= -half / k;
        gauss += part;
    }
    for (int k = 0; k < 6; ++k)
        gauss *= gauss;
    return 0.5 + sum * gauss * 0.3989422804014327; // 1/√(2π)
}

} // namespace

double normal_quantile(double p) {
    grid::within("p", p, {1e-6, 1 - 1e-6, ""});
    double below = -6, above = 6;
    for (int k = 0; k < 60; ++k) {
        const double middle = 0.5 * (below + above);
        (normal_share(middle) < p ? below : above) = middle;
    }
    return 0.5 * (below + above);
}

std::vector<Day> days(std::uint64_t seed, int count) {
    grid::within("days", count, {1, 64, ""});
    std::mt19937_64 chance(seed * 1000003 + 79);
    const auto spread = [&](double sigma, double unit) {
        std::vector<double> values;
        for (int k = 0; k < count; ++k)
            values.push_back(rounded(sigma * normal_quantile((k + 0.5) / count), unit));
        for (int k = count - 1; k > 0; --k) // std::shuffle differs between libraries
            std::swap(values[k], values[chance() % static_cast<std::uint64_t>(k + 1)]);
        return values;
    };
    const auto humidity = spread(humidity_sigma, 1e-3), water = spread(water_sigma, 1e-3), pace = spread(pace_sigma, 1e-3);
    std::vector<Day> all;
    for (int k = 0; k < count; ++k)
        all.push_back({humidity[k], 1 + water[k], 1 + pace[k]});
    return all;
}

Values on(const Day& day, Values plan) {
    plan.room.humidity = std::clamp(plan.room.humidity + day.humidity_more, 0.01, 0.99);
    for (Step& step : plan.steps)
        std::visit(OnDay{day}, step.act);
    return plan;
}

} // namespace tidemark::plan
