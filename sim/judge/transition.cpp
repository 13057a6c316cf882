#include "judge/transition.h"

#include "judge/plateau_detail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
/// Of the width: so far beyond its 10 and 90 % a blurred edge is within 0.3 % of its sides (normal distribution: 2.75 over
/// 2 × 1.28 standard deviations, less a half).
constexpr double tail_share = 0.57;

/// How far an edge may have run from the outline: as far as the shape is thick (a profile reaches in for half of that), 3
/// to 10 mm. Beyond is something else.
double farthest_mm(const Profile& p) { return std::clamp(-2 * p.from_mm, 3.0, 10.0); }

/// Where a step from 0 to 1 has the least absolute misfit: noise far from the edge can't move it.
double best_step_mm(const Profile& p, const std::vector<double>& u) {
    double misfit = 0, best = std::numeric_limits<double>::infinity();
    const double farthest = farthest_mm(p);
    std::size_t best_k = 0; // samples before k lie inside
    for (std::size_t k = 0; k <= u.size(); ++k) {
        if (std::abs(p.at_mm(k) - 0.5 * p.step_mm) <= farthest && misfit < best)
            best = misfit, best_k = k;
        if (k < u.size())
            misfit += std::abs(u[k]) - std::abs(u[k] - 1);
    }
    return p.at_mm(best_k) - 0.5 * p.step_mm;
}

double crossing_mm(double from_mm, double step_mm, const std::vector<double>& rising, double level) {
    const auto above = std::upper_bound(rising.begin(), rising.end(), level);
    if (above == rising.begin())
        return from_mm;
    if (above == rising.end())
        return from_mm + step_mm * static_cast<double>(rising.size() - 1);
    const auto k = static_cast<std::size_t>(above - rising.begin());
    return from_mm + step_mm * (static_cast<double>(k - 1) + (level - rising[k - 1]) / (rising[k] - rising[k - 1]));
}

struct Sides {
    Plateau inside, outside;
};

/// Plateaus next to the edge, beyond its rims and the tails of a soft one; where the shape is too narrow for that, the outer half of what is
/// left.
Sides sides_beyond(const Profile& p, const TransitionRules& r, double inner_mm, double outer_mm) {
    const double first = p.from_mm, last = p.at_mm(p.lstar.size() - 1), least = 2; // mm of plateau
    const double beyond = std::max(r.rim_reach_mm, tail_share * (outer_mm - inner_mm));
    double in_to = inner_mm - beyond, out_from = outer_mm + beyond;
    if (in_to - first < least)
        in_to = first + std::max(0.0, 0.5 * (inner_mm - first));
    if (last - out_from < least)
        out_from = last - std::max(0.0, 0.5 * (last - outer_mm));
    const double from = std::max(first, in_to - r.plateau_mm), to = std::min(last, out_from + r.plateau_mm);
    return {read_plateau(p, from, in_to, true), read_plateau(p, out_from, to, true)};
}

/// u along the profile: each side's trend is carried on to the edge at `at_mm`, and no further. False: no contrast.
bool normalise(const Profile& p, const Sides& sides, double at_mm, double least_L, std::vector<double>& u) {
    const double there = sides.outside.at(at_mm) - sides.inside.at(at_mm);
    if (std::abs(there) < least_L)
        return false;
    for (std::size_t k = 0; k < u.size(); ++k) {
        const double in = sides.inside.at(std::min(p.at_mm(k), at_mm));
        const double out = sides.outside.at(std::max(p.at_mm(k), at_mm));
        const double contrast = out - in;
        u[k] = (p.lstar[k] - in) / (contrast * there > 0 ? contrast : there);
    }
    return true;
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
    for (const Block& b : blocks)
        fit.insert(fit.end(), b.count, b.mean());
    return fit;
}

Transition measure_transition(const Profile& p, const TransitionRules& rules) {
    constexpr int passes = 6; // each looks at plateaus next to the edge that the one before found
    const double last = p.at_mm(p.lstar.size() - 1);
    Sides sides{read_plateau(p, p.from_mm, 0.5 * p.from_mm, false), read_plateau(p, 0.5 * last, last, false)};
    Transition t;
    std::vector<double> u(p.lstar.size());
    for (int pass = 0; pass < passes; ++pass) {
        if (!normalise(p, sides, t.at_mm, rules.least_contrast_L, u)) {
            t.width_mm = none, t.at_mm = t.inner_mm = t.outer_mm = 0;
            break;
        }
        t.at_mm = best_step_mm(p, u);
        if (pass == 0) { // far plateaus tell where the edge lies, near ones how wide it is
            t.inner_mm = t.outer_mm = t.at_mm;
        } else {
            const std::vector<double> rising = monotone_fit(u); // all of it: a plateau read on a soft edge's tail must not cut it short
            t.inner_mm = crossing_mm(p.from_mm, p.step_mm, rising, 0.1);
            t.outer_mm = crossing_mm(p.from_mm, p.step_mm, rising, 0.9);
            t.width_mm = t.outer_mm - t.inner_mm;
        }
        if (pass + 1 < passes)
            sides = sides_beyond(p, rules, t.inner_mm, t.outer_mm);
    }
    t.inside_L = sides.inside.at(t.inner_mm), t.outside_L = sides.outside.at(t.outer_mm);
    return t;
}

} // namespace tidemark::judge
