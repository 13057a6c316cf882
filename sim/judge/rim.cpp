// Medians over the profiles of a stretch, and its rim.
#include "judge/median_detail.h"
#include "judge/stretch_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// What a rim must be darker than: the darker of the two sides, else a light wash would have a rim wherever it meets
/// a dark one.
double rim_base_L(const Transition& t) { return std::min(t.inside_L, t.outside_L); }

/// Mean L* within a quarter of a millimetre of a place; NaN where the profile does not reach.
double lstar_near(const Profile& p, double at_mm) {
    double sum = 0;
    int count = 0;
    const int middle = static_cast<int>(std::lround((at_mm - p.from_mm) / p.step_mm));
    for (int k = middle - 2; k <= middle + 2; ++k)
        if (k >= 0 && k < static_cast<int>(p.lstar.size()))
            sum += p.lstar[k], ++count;
    return count == 0 ? none : sum / count;
}

/// The place of the rim, from the edge: where the mean over all profiles, each laid with its edge at 0, is darkest.
/// Finding the place on the mean and then reading each profile there keeps granulation from posing as a rim: the
/// darkest of many noisy samples is always dark.
double rim_place_mm(const std::vector<Profile>& profiles, const std::vector<Transition>& t, double reach_mm) {
    std::vector<double> inner, outer;
    for (const Transition& one : t) {
        inner.push_back(one.inner_mm - one.at_mm);
        outer.push_back(std::max(0.0, -one.at_mm)); // as far as the mask goes, or the edge
    }
    const double from = median(inner) - reach_mm, to = median(outer);
    double darkest = std::numeric_limits<double>::infinity(), place = 0;
    for (double s = to; s >= from - 1e-9; s -= 0.1) {
        double sum = 0;
        int count = 0;
        for (std::size_t k = 0; k < profiles.size(); ++k) {
            const double L = lstar_near(profiles[k], t[k].at_mm + s);
            if (!std::isnan(L))
                sum += L - rim_base_L(t[k]), ++count;
        }
        if (2 * static_cast<std::size_t>(count) >= profiles.size() && sum / count < darkest)
            darkest = sum / count, place = s;
    }
    return place;
}

} // namespace

StretchVerdict measure_stretch(const Stretch& s, const EdgeRules& rules) {
    std::vector<Profile> profiles;
    std::vector<Transition> t;
    for (const Profile& p : s.profiles) {
        if (p.lstar.size() < 4)
            continue;
        t.push_back(measure_transition(p, rules.transition));
        profiles.push_back(p);
    }
    std::vector<double> width, contrast, shift, in, out, rim;
    const double place = t.empty() ? 0 : rim_place_mm(profiles, t, rules.transition.rim_reach_mm);
    for (std::size_t k = 0; k < t.size(); ++k) {
        contrast.push_back(std::abs(t[k].outside_L - t[k].inside_L));
        in.push_back(t[k].inside_L), out.push_back(t[k].outside_L);
        if (!std::isnan(t[k].width_mm))
            width.push_back(t[k].width_mm), shift.push_back(t[k].at_mm);
        const double L = lstar_near(profiles[k], t[k].at_mm + place);
        if (!std::isnan(L))
            rim.push_back(rim_base_L(t[k]) - L);
    }
    StretchVerdict v;
    const bool measured = 2 * width.size() >= t.size() && !width.empty();
    v.width_mm = measured ? median(width) : none;
    v.shift_mm = measured ? median(shift) : none;
    v.delta_L = median(contrast), v.inside_L = median(in), v.outside_L = median(out);
    v.rim_L = rim.empty() ? 0 : std::max(0.0, median(rim));
    return v;
}

} // namespace tidemark::judge
