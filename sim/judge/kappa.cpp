#include "judge/kappa.h"

#include <cmath>
#include <cstdlib>
#include <limits>

namespace tidemark::judge {

namespace {

template <class Weight> Table weights(int groups, Weight&& of) {
    Table w(groups, std::vector<double>(groups, 0.0));
    for (int i = 0; i < groups; ++i)
        for (int j = 0; j < groups; ++j)
            w[i][j] = of(std::abs(i - j));
    return w;
}

} // namespace

double weighted_kappa(const Table& found, const Table& weight) {
    const std::size_t n = found.size();
    std::vector<double> row(n, 0.0), column(n, 0.0);
    double all = 0, seen = 0, chance = 0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            row[i] += found[i][j], column[j] += found[i][j], all += found[i][j], seen += weight[i][j] * found[i][j];
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            chance += weight[i][j] * row[i] * column[j];
    if (!(chance > 0))
        return std::numeric_limits<double>::quiet_NaN();
    return 1 - seen * all / chance;
}

Table unweighted(int groups) {
    return weights(groups, [](int apart) { return apart == 0 ? 0.0 : 1.0; });
}
Table linear_weights(int groups) {
    return weights(groups, [](int apart) { return static_cast<double>(apart); });
}
Table quadratic_weights(int groups) {
    return weights(groups, [](int apart) { return static_cast<double>(apart) * apart; });
}

} // namespace tidemark::judge
