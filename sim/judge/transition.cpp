#include "judge/transition.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "judge/median_detail.h"

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// Median of the samples between two places; of all when there are none.
double median_between(const Profile& p, double from_mm, double to_mm) {
    std::vector<float> v;
    for (std::size_t k = 0; k < p.lstar.size(); ++k)
        if (p.at_mm(k) >= from_mm - 1e-9 && p.at_mm(k) <= to_mm + 1e-9) v.push_back(p.lstar[k]);
    if (v.empty()) v = p.lstar;
    return median(std::move(v));
}

/// Where a step from 0 to 1 has the least absolute misfit: noise far from the edge can't move it.
double best_step_mm(const Profile& p, const std::vector<double>& u) {
    double misfit = 0, best = 0;
    std::size_t best_k = 0; // samples before k lie inside
    for (std::size_t k = 0; k < u.size(); ++k) {
        misfit += std::abs(u[k]) - std::abs(u[k] - 1);
        if (misfit < best) best = misfit, best_k = k + 1;
    }
    return p.at_mm(best_k) - 0.5 * p.step_mm;
}

double crossing_mm(const Profile& p, const std::vector<double>& rising, double level) {
    const auto above = std::upper_bound(rising.begin(), rising.end(), level);
    if (above == rising.begin()) return p.at_mm(0);
    if (above == rising.end()) return p.at_mm(rising.size() - 1);
    const auto k = static_cast<std::size_t>(above - rising.begin());
    return p.at_mm(k - 1) + p.step_mm * (level - rising[k - 1]) / (rising[k] - rising[k - 1]);
}

/// Plateaus next to the edge, beyond its rims; where the shape is too narrow for that, the outer half of what is left.
void read_plateaus(const Profile& p, const TransitionRules& r, Transition& t) {
    const double first = p.from_mm, last = p.at_mm(p.lstar.size() - 1), least = 2; // mm of plateau
    double in_to = t.inner_mm - r.rim_reach_mm, out_from = t.outer_mm + r.rim_reach_mm;
    if (in_to - first < least) in_to = first + std::max(0.0, 0.5 * (t.inner_mm - first));
    if (last - out_from < least) out_from = last - std::max(0.0, 0.5 * (last - t.outer_mm));
    t.inside_L = median_between(p, std::max(first, in_to - r.plateau_mm), in_to);
    t.outside_L = median_between(p, out_from, std::min(last, out_from + r.plateau_mm));
}

} // namespace

std::vector<double> monotone_fit(const std::vector<double>& y) {
    struct Block {
        double sum;
        std::size_t count;
        double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Block> blocks;
    for (const double v : y) {
        blocks.push_back({v, 1});
        while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean()) {
            const Block last = blocks.back();
            blocks.pop_back();
            blocks.back().sum += last.sum, blocks.back().count += last.count;
        }
    }
    std::vector<double> fit;
    fit.reserve(y.size());
    for (const Block& b : blocks) fit.insert(fit.end(), b.count, b.mean());
    return fit;
}

Transition measure_transition(const Profile& p, const TransitionRules& rules) {
    Transition t;
    const double last = p.at_mm(p.lstar.size() - 1);
    t.inside_L = median_between(p, p.from_mm, 0.5 * p.from_mm);
    t.outside_L = median_between(p, 0.5 * last, last);
    std::vector<double> u(p.lstar.size());
    for (int pass = 0; pass < 3; ++pass) { // the second and third look at plateaus next to the edge just found
        const double contrast = t.outside_L - t.inside_L;
        if (std::abs(contrast) < rules.least_contrast_L) {
            t.width_mm = none, t.at_mm = t.inner_mm = t.outer_mm = 0;
            return t;
        }
        for (std::size_t k = 0; k < u.size(); ++k) u[k] = (p.lstar[k] - t.inside_L) / contrast;
        const std::vector<double> rising = monotone_fit(u);
        t.at_mm = best_step_mm(p, u);
        t.inner_mm = crossing_mm(p, rising, 0.1);
        t.outer_mm = crossing_mm(p, rising, 0.9);
        t.width_mm = t.outer_mm - t.inner_mm;
        if (pass < 2) read_plateaus(p, rules, t);
    }
    return t;
}

} // namespace tidemark::judge
