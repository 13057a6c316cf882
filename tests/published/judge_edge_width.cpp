// The 10-90 % width of a step blurred by a Gaussian of standard deviation s is 2 × 1.28155 s = 2.5631 s: the 10 %
// and 90 % points of the normal distribution (Abramowitz & Stegun 1964, table 26.5).
#include "support/judge_scene.h"
#include "support/published.h"

#include <catch2/catch.hpp>

using namespace judge_scene;
using published::Check;

namespace {
constexpr double width_over_s = 2.5631;

double width_of(const Scene& s) {
    const auto edges = s.edges();
    REQUIRE(edges.size() == 1);
    CHECK(edges[0].neighbour == "paper");
    return edges[0].width_mm;
}
} // namespace

TEST_CASE("a step blurred by a Gaussian is 2.5631 standard deviations wide", "[published][judge]") {
    // 2 %: four cells a standard deviation; reading a cell grid bilinearly adds up to 1/6 cell² of variance, 0.5 %.
    for (const double s : {2.0, 3.0}) {
        const double width = width_of(tilted_edge(0, [&](double d) { return blurred_step(d, s, 40, 92); }));
        Check{"10 to 90 % width of a blurred step, over s", "normal distribution, Abramowitz & Stegun 1964"}.relative(
            width_over_s, width / s, 0.02);
    }
}

TEST_CASE("halving the cells brings the width of a blurred step closer", "[published][judge]") {
    const auto error = [](double cell_mm) {
        const auto scene = tilted_edge(
            0, [](double d) { return blurred_step(d, 0.8, 40, 92); }, 60, cell_mm);
        return std::abs(width_of(scene) - width_over_s * 0.8);
    };
    CHECK(error(0.25) < 0.5 * error(0.5)); // the reading error goes with the square of the cell
    CHECK(error(0.5) < 0.05 * width_over_s * 0.8);
}

TEST_CASE("the width of an edge does not depend on its angle", "[published][judge]") {
    // 3 %: as above, and at an angle the outline itself is known to a fraction of a cell.
    for (const double angle : {0.0, 13.0, 30.0, 45.0, 71.0, 90.0, 200.0}) {
        CAPTURE(angle);
        Check{"10 to 90 % width at angles of 0 to 200 degrees, over s",
              "normal distribution, Abramowitz & Stegun 1964"}
            .relative(width_over_s,
                      width_of(tilted_edge(angle, [](double d) { return blurred_step(d, 2, 45, 90); })) / 2, 0.03);
    }
}

TEST_CASE("granulation does not change the width of a blurred step much", "[published][judge]") {
    // 12 %: 80 mm of outline are 16 independent windows; an averaged profile has noise of 1 L*, and at its 10 % point
    // a normal profile with 45 L* of contrast rises by 1 L* in 0.25 mm at each end.
    for (const unsigned seed : {1u, 2u, 3u}) {
        auto s = tilted_edge(17, [](double d) { return blurred_step(d, 2, 45, 90); });
        granulate(s, 3, seed);
        Check{"10 to 90 % width on a granulated wash, over s", "normal distribution, Abramowitz & Stegun 1964"}
            .relative(width_over_s, width_of(s) / 2, 0.12);
    }
}
