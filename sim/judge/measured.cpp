#include "judge/measured_detail.h"
#include "judge/median_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double width_over_sd = 2.5631; // 10 to 90 % of a normal distribution

std::vector<double> running_median(const std::vector<double>& v) {
    constexpr int reach = 2;
    std::vector<double> out;
    const int n = static_cast<int>(v.size());
    for (int k = 0; k < n; ++k)
        out.push_back(
            median(std::vector<double>(v.begin() + std::max(0, k - reach), v.begin() + std::min(n, k + reach + 1))));
    return out;
}

} // namespace

double without_reading_blur_mm(double read_mm, double cell_mm) {
    const double blur_mm = width_over_sd * cell_mm / std::sqrt(6.0);
    return std::sqrt(std::max(0.0, read_mm * read_mm - blur_mm * blur_mm));
}

Profile aligned_mean(const std::vector<const Across*>& all, const std::vector<double>& at_mm) {
    Profile mean;
    mean.step_mm = all.front()->profile.step_mm;
    double from = 0, to = 0;
    for (std::size_t a = 0; a < all.size(); ++a) {
        from = std::min(from, all[a]->profile.from_mm - at_mm[a]);
        to = std::max(to, all[a]->profile.at_mm(all[a]->profile.lstar.size() - 1) - at_mm[a]);
    }
    const int first = static_cast<int>(std::ceil(from / mean.step_mm - 1e-9));
    const int last = static_cast<int>(std::floor(to / mean.step_mm + 1e-9));
    std::vector<double> sum(last - first + 1, 0.0);
    std::vector<int> count(sum.size(), 0);
    for (std::size_t a = 0; a < all.size(); ++a) {
        const Profile& p = all[a]->profile;
        for (std::size_t k = 0; k < sum.size(); ++k) {
            const double x = ((first + static_cast<int>(k)) * mean.step_mm + at_mm[a] - p.from_mm) / p.step_mm;
            if (x < -1e-6 || x > static_cast<double>(p.lstar.size()) - 1 + 1e-6)
                continue;
            const auto i = static_cast<std::size_t>(std::clamp(x, 0.0, static_cast<double>(p.lstar.size()) - 1));
            const std::size_t next = std::min(i + 1, p.lstar.size() - 1);
            const double t = std::clamp(x - static_cast<double>(i), 0.0, 1.0);
            sum[k] += (1 - t) * p.lstar[i] + t * p.lstar[next], ++count[k];
        }
    }
    std::size_t k = 0;
    const auto enough = [&](std::size_t at) { return 2 * static_cast<std::size_t>(count[at]) >= all.size(); };
    while (k < sum.size() && !enough(k))
        ++k;
    mean.from_mm = (first + static_cast<int>(k)) * mean.step_mm;
    for (; k < sum.size() && enough(k); ++k)
        mean.lstar.push_back(static_cast<float>(sum[k] / count[k]));
    return mean;
}

Measured measure_together(const std::vector<const Across*>& places, double cell_mm, const EdgeRules& rules) {
    std::vector<const Across*> all;
    std::vector<double> at, contrast, inside, outside, width, shift, rim_L;
    for (const Across* a : places) {
        if (a->profile.lstar.size() < least_samples)
            continue;
        const Transition& t = a->transition;
        all.push_back(a), at.push_back(t.at_mm);
        contrast.push_back(std::abs(t.outside_L - t.inside_L)), inside.push_back(t.inside_L),
            outside.push_back(t.outside_L);
        if (!std::isnan(t.width_mm))
            width.push_back(t.width_mm), shift.push_back(t.at_mm);
    }
    Measured m;
    m.width_mm = m.shift_mm = m.surely_mm = m.median_width_mm = m.median_shift_mm = none;
    if (all.empty())
        return m;
    m.delta_L = median(contrast), m.inside_L = median(inside), m.outside_L = median(outside);
    at = running_median(at);
    const Profile mean = aligned_mean(all, at);
    if (mean.lstar.size() < least_samples || mean.from_mm > 0 || mean.at_mm(mean.lstar.size() - 1) < 0)
        return m;
    const Transition t = measure_transition(mean, rules.transition);
    const bool has_edge = 2 * width.size() >= all.size() && !width.empty();
    if (has_edge)
        m.median_width_mm = without_reading_blur_mm(median(width), cell_mm), m.median_shift_mm = median(shift);
    if (has_edge && !std::isnan(t.width_mm))
        m.width_mm = without_reading_blur_mm(t.width_mm, cell_mm), m.shift_mm = median(at) + t.at_mm;
    if (has_edge) {
        const auto quarter = shift.begin() + static_cast<std::ptrdiff_t>(shift.size() / 4);
        std::nth_element(shift.begin(), quarter, shift.end());
        m.surely_mm = *quarter;
    }
    const Rim rim = rim_of(mean, t, rules.transition.rim_reach_mm, -median(at));
    for (std::size_t k = 0; k < all.size(); ++k) {
        const Transition& own = all[k]->transition;
        const double L = lstar_near(all[k]->profile, at[k] + rim.at_mm);
        if (!std::isnan(L))
            rim_L.push_back(std::min(own.inside_L, own.outside_L) - L);
    }
    m.rim_L = rim_L.empty() ? 0 : std::max(0.0, median(rim_L));
    m.rim_mm = rim.width_mm;
    return m;
}

} // namespace tidemark::judge
