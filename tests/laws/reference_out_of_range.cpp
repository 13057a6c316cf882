// A squint with widths or a scale out of range is refused by name and range.
#include "reference/outline.h"
#include "reference/squint.h"
#include "support/refused.h"

using namespace tidemark;
using scene::takes_only;

TEST_CASE("a squint is refused with a scale, blur, vote or crumb out of range", "[law][reference]") {
    reference::ValueMap map{4, 4, std::vector<float>(16, 50.0f)};
    map.lstar[3] = 20;
    const grid::Allowed mm{0, 100, "mm"};
    const auto seen = [&](double scale, const reference::Squint& how) { reference::squint(map, scale, 2, how); };
    takes_only("pixels_per_mm", {1e-3, 1000, "pixels/mm"}, [&](double v) { seen(v, {.blur_mm = 0.01, .vote_mm = 0.01}); });
    takes_only("blur_mm", mm, [&](double v) { seen(0.1, {.blur_mm = v}); });
    takes_only("vote_mm", mm, [&](double v) { seen(0.1, {.vote_mm = v}); });
    takes_only("crumb_mm2", {0, 1e6, "mm²"}, [&](double v) { seen(0.1, {.crumb_mm2 = v}); });
}

TEST_CASE("an outline is refused with a smoothing or tolerance out of range", "[law][reference]") {
    const reference::Masses masses{2, 1, {0, 1}, {}};
    const grid::Allowed mm{0, 20, "mm"};
    takes_only("smooth_mm", mm, [&](double v) { reference::outlines(masses, 2, 1, {v, 0}); });
    takes_only("tolerance_mm", mm, [&](double v) { reference::outlines(masses, 2, 1, {0, v}); });
}
