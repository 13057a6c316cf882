/// Otsu 1979 (IEEE Trans. Syst. Man Cybern. 9, 62): the threshold of a histogram. Expected values were computed once
/// by trying every threshold, and here again by a plain search that shares no code with the program under test.
#include "reference/groups.h"
#include "reference/otsu.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace tidemark::reference;
using published::Check;

namespace {

const std::vector<double> six_levels{8, 7, 2, 6, 9, 4}; // worked in many text-books
const std::vector<double> two_humps{2, 10, 20, 10, 2, 0, 1, 6, 15, 25, 15, 6, 1, 0, 0, 0};
const std::vector<double> three_humps{2, 10, 20, 10, 2, 0, 1, 6, 15, 25, 15, 6, 1, 3, 9, 12, 8, 2, 0, 0};

/// Between-class variance from its definition, Σ w_k (m_k - m)² with shares w_k.
double from_definition(const std::vector<double>& h, const std::vector<int>& cuts) {
    double pixels = 0, mean = 0, variance = 0;
    for (std::size_t v = 0; v < h.size(); ++v)
        pixels += h[v], mean += h[v] * static_cast<double>(v);
    mean /= pixels;
    std::size_t v = 0;
    for (std::size_t k = 0; k <= cuts.size(); ++k) {
        double w = 0, m = 0;
        for (; v < h.size() && (k == cuts.size() || static_cast<int>(v) <= cuts[k]); ++v)
            w += h[v], m += h[v] * static_cast<double>(v);
        if (w > 0)
            variance += w / pixels * (m / w - mean) * (m / w - mean);
    }
    return variance;
}

} // namespace

TEST_CASE("otsu threshold of two published-style histograms, two classes", "[published][reference]") {
    REQUIRE(otsu_cuts(six_levels, 2).size() == 1);
    Check{"threshold of six levels", "Otsu 1979", "level"}.near(2, otsu_cuts(six_levels, 2)[0], 0.1);
    Check{"between-class variance of six levels", "Otsu 1979"}.near(
        2.628715, between_class_variance(six_levels, std::vector<int>{2}), 1e-6);
    CHECK(otsu_cuts(two_humps, 2) == std::vector<int>{4}); // 5 scores the same, but its level is empty
    Check{"between-class variance of two humps", "Otsu 1979"}.near(
        11.650403, between_class_variance(two_humps, std::vector<int>{4}), 1e-6);
    CHECK(between_class_variance(two_humps, std::vector<int>{5}) == Approx(11.650403).margin(1e-6));
}

TEST_CASE("otsu thresholds of three humps, three classes", "[published][reference]") {
    CHECK(otsu_cuts(three_humps, 3) == std::vector<int>{4, 11});
    Check{"between-class variance of three classes", "Otsu 1979"}.near(
        22.226371, between_class_variance(three_humps, otsu_cuts(three_humps, 3)), 1e-6);
}

TEST_CASE("no other three or four classes score higher than the cuts found", "[published][reference]") {
    const int top = static_cast<int>(three_humps.size()) - 1;
    double best3 = 0, best4 = 0;
    for (int a = 0; a < top; ++a)
        for (int b = a + 1; b < top; ++b) {
            best3 = std::max(best3, from_definition(three_humps, {a, b}));
            for (int c = b + 1; c < top; ++c)
                best4 = std::max(best4, from_definition(three_humps, {a, b, c}));
        }
    CHECK(from_definition(three_humps, otsu_cuts(three_humps, 3)) == Approx(best3).epsilon(1e-12));
    CHECK(from_definition(three_humps, otsu_cuts(three_humps, 4)) == Approx(best4).epsilon(1e-12));
}

TEST_CASE("groups of a value map cut where Otsu's rule cuts its histogram", "[published][reference]") {
    ValueMap map{0, 1, {}};
    for (std::size_t v = 0; v < two_humps.size(); ++v) // level v stands for L* 5 v
        map.lstar.insert(map.lstar.end(), static_cast<std::size_t>(two_humps[v]), 5.0f * static_cast<float>(v));
    map.width = static_cast<int>(map.lstar.size());
    const Groups g = group_values(map, 2);
    REQUIRE(g.thresholds.size() == 1);
    CHECK(g.thresholds[0] == Approx(25));                    // level 4 is L* 20, level 5 is empty, level 6 is L* 30
    CHECK(g.mean_lstar[0] == Approx(5 * 2.0).epsilon(1e-6)); // class means 2 and 9, from the same search
    CHECK(g.mean_lstar[1] == Approx(5 * 9.0).epsilon(1e-6));
    CHECK(g.pixels[0] == 44);
}
