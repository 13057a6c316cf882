#include "reference/step_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace tidemark::reference {

namespace {

constexpr double from_10_to_90 = 2.5631031310892007; // of a normal distribution, in its deviations
constexpr double rung_ratio = 1.2;

/// The row about its mean, and sums of what lies from each value on.
struct Row {
    std::vector<double> value, from_here;
    double squares = 0;

    explicit Row(std::span<const double> row) : value(row.begin(), row.end()), from_here(row.size() + 1, 0.0) {
        const double mean = std::accumulate(row.begin(), row.end(), 0.0) / static_cast<double>(row.size());
        for (double& v : value)
            v -= mean, squares += v * v;
        for (std::size_t k = value.size(); k-- > 0;)
            from_here[k] = from_here[k + 1] + value[k];
    }
    int size() const { return static_cast<int>(value.size()); }
};

struct Best {
    double residual = std::numeric_limits<double>::infinity(); ///< sum of squares
    int at = 0;                                                ///< half values
    double change = 0;
};

} // namespace

ThreeLevels three_levels(std::span<const double> values) {
    const Row row(values);
    const int n = row.size();
    const auto held = [&](int from, int to) { // by a stretch's mean, of the squares
        const double sum = row.from_here[from] - row.from_here[to];
        return sum * sum / (to - from);
    };
    ThreeLevels best;
    double most = -1;
    for (int second = 1; second < n - 1; ++second)
        for (int third = second + 1; third < n; ++third)
            if (const double all = held(0, second) + held(second, third) + held(third, n); all > most)
                most = all, best = {second, third, 0};
    best.residual = std::max(0.0, row.squares - most);
    return best;
}

StepFit::StepFit(double narrowest, int longest) {
    for (double width = narrowest; width <= std::max(1, longest - 1); width *= rung_ratio) {
        Rung r;
        r.s = width / from_10_to_90;
        r.reach = static_cast<int>(std::ceil(2 * 4 * r.s));
        r.stride = std::max(1, static_cast<int>(2 * r.s / 4));
        for (int i = -r.reach; i <= r.reach; ++i)
            r.phi.push_back(0.5 * std::erfc(-i / (2 * r.s) * M_SQRT1_2));
        rungs_.push_back(r);
    }
}

std::optional<FittedStep> StepFit::falling(std::span<const double> values) const {
    const Row row(values);
    const int n = row.size();
    std::vector<Best> best(rungs_.size());
    std::size_t rung = 0;
    for (std::size_t q = 0; q < rungs_.size(); ++q) {
        const Rung& r = rungs_[q];
        const int margin = static_cast<int>(std::ceil(from_10_to_90 * r.s)); // half the width, in half values
        for (int at = margin; at <= 2 * (n - 1) - margin; at += r.stride) {
            const int first = std::max(0, (at - r.reach + 1) / 2), end = std::clamp((at + r.reach) / 2 + 1, first, n);
            double p = n - end, pp = p, pv = row.from_here[end]; // Φ is 1 there
            for (int k = first; k < end; ++k) {
                const double phi = r.phi[2 * k - at + r.reach];
                p += phi, pp += phi * phi, pv += phi * row.value[k];
            }
            const double spread = pp - p * p / n;
            if (!(pv < 0) || !(spread > 1e-9))
                continue;
            const double residual = std::max(0.0, row.squares - pv * pv / spread);
            if (residual < best[q].residual)
                best[q] = {residual, at, pv / spread};
        }
        if (best[q].residual < best[rung].residual)
            rung = q;
    }
    if (rungs_.empty() || !std::isfinite(best[rung].residual))
        return std::nullopt;
    double between = 0; // rungs
    if (rung > 0 && rung + 1 < rungs_.size()) {
        const double a = best[rung - 1].residual, b = best[rung].residual, c = best[rung + 1].residual;
        if (std::isfinite(a + c) && a - 2 * b + c > 0)
            between = 0.5 * (a - c) / (a - 2 * b + c);
    }
    return FittedStep{0.5 * best[rung].at, from_10_to_90 * rungs_[rung].s * std::pow(rung_ratio, between), best[rung].change,
                      1 - best[rung].residual / row.squares,
                      best[rung].residual};
}

} // namespace tidemark::reference
