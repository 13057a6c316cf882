#include "judge/median_detail.h"
#include "judge/plateau_detail.h"

#include <cmath>
#include <utility>

namespace tidemark::judge {

namespace {

constexpr double least_for_slope_mm = 4, sample_every_mm = 0.5; // cells are no finer than a quarter of a millimetre

double significant_slope(const std::vector<double>& s, const std::vector<double>& L) {
    std::vector<double> slopes, residual;
    double mean_s = 0, spread_s = 0;
    for (std::size_t a = 0; a < s.size(); ++a) {
        mean_s += s[a] / static_cast<double>(s.size());
        for (std::size_t b = a + 1; b < s.size(); ++b)
            slopes.push_back((L[b] - L[a]) / (s[b] - s[a]));
    }
    const double slope = median(std::move(slopes));
    for (std::size_t a = 0; a < s.size(); ++a) {
        spread_s += (s[a] - mean_s) * (s[a] - mean_s);
        residual.push_back(L[a] - slope * s[a]);
    }
    const double middle = median(residual);
    for (double& r : residual)
        r = std::abs(r - middle);
    const double noise = 1.4826 * median(std::move(residual)); // of a normal distribution: standard deviation
    return std::copysign(std::max(0.0, std::abs(slope) - 2 * noise / std::sqrt(spread_s)), slope);
}

} // namespace

Plateau read_plateau(const Profile& p, double from_mm, double to_mm, bool with_slope) {
    std::vector<double> s, L, thin_s, thin_L;
    const auto every = static_cast<std::size_t>(std::max(1.0, std::round(sample_every_mm / p.step_mm)));
    for (std::size_t k = 0; k < p.lstar.size(); ++k) {
        if (p.at_mm(k) < from_mm - 1e-9 || p.at_mm(k) > to_mm + 1e-9)
            continue;
        if (s.size() % every == 0)
            thin_s.push_back(p.at_mm(k)), thin_L.push_back(p.lstar[k]);
        s.push_back(p.at_mm(k)), L.push_back(p.lstar[k]);
    }
    if (s.empty())
        return {median(p.lstar), 0, 0};
    Plateau out{median(L), 0.5 * (s.front() + s.back()), 0};
    if (with_slope && s.back() - s.front() >= least_for_slope_mm)
        out.slope_L_mm = significant_slope(thin_s, thin_L);
    return out;
}

} // namespace tidemark::judge
