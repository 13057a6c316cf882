#include "reference/otsu.h"

#include <algorithm>

namespace tidemark::reference {

namespace {

/// Filled levels only, with running totals, so that a class of levels [i, j) costs two subtractions.
struct Totals {
    std::vector<int> level;
    std::vector<double> count{0}, sum{0}; ///< of the levels before index i
    double score(std::size_t i, std::size_t j) const {
        const double w = count[j] - count[i], s = sum[j] - sum[i];
        return s * s / w; // Σ w m², all that varies in the between-class variance
    }
};

Totals totals(std::span<const double> histogram) {
    Totals t;
    for (std::size_t v = 0; v < histogram.size(); ++v) {
        if (!(histogram[v] > 0))
            continue;
        t.level.push_back(static_cast<int>(v));
        t.count.push_back(t.count.back() + histogram[v]);
        t.sum.push_back(t.sum.back() + histogram[v] * static_cast<double>(v));
    }
    return t;
}

} // namespace

std::vector<int> otsu_cuts(std::span<const double> histogram, int classes) {
    const Totals t = totals(histogram);
    const std::size_t n = t.level.size(), k_max = std::min<std::size_t>(std::max(classes, 1), n);
    if (k_max < 2)
        return {};
    // best[k][j]: highest score of the first j levels in k + 1 classes; from[k][j]: where its last class begins.
    std::vector<std::vector<double>> best(k_max, std::vector<double>(n + 1, 0.0));
    std::vector<std::vector<std::size_t>> from(k_max, std::vector<std::size_t>(n + 1, 0));
    for (std::size_t j = 1; j <= n; ++j)
        best[0][j] = t.score(0, j);
    for (std::size_t k = 1; k < k_max; ++k)
        for (std::size_t j = k + 1; j <= n; ++j) {
            best[k][j] = -1;
            for (std::size_t i = k; i < j; ++i) {
                const double score = best[k - 1][i] + t.score(i, j);
                if (score > best[k][j])
                    best[k][j] = score, from[k][j] = i;
            }
        }
    std::vector<int> cuts(k_max - 1);
    for (std::size_t k = k_max - 1, j = n; k > 0; --k) {
        j = from[k][j];
        cuts[k - 1] = t.level[j - 1];
    }
    return cuts;
}

double between_class_variance(std::span<const double> histogram, std::span<const int> cuts) {
    double all = 0, all_sum = 0, score = 0;
    std::size_t v = 0;
    for (std::size_t k = 0; k <= cuts.size(); ++k) {
        const std::size_t end = k < cuts.size() ? static_cast<std::size_t>(cuts[k]) + 1 : histogram.size();
        double w = 0, s = 0;
        for (; v < end && v < histogram.size(); ++v)
            w += histogram[v], s += histogram[v] * static_cast<double>(v);
        if (w > 0)
            score += s * s / w;
        all += w, all_sum += s;
    }
    return all > 0 ? score / all - (all_sum / all) * (all_sum / all) : 0;
}

} // namespace tidemark::reference
