// A shape, an order and lights asked for with numbers out of range are refused by name and range.
#include "reference/lights_to_save.h"
#include "reference/order.h"
#include "reference_scene.h"
#include "support/refused.h"

using namespace tidemark;
using namespace tidemark::reference;
using scene::takes_only;

TEST_CASE("a connected shape is refused with a scale, islands or bridges out of range", "[law][reference]") {
    const tests::Scene s({"dd..dd", "dd..dd"});
    const auto shape = [&](double scale, const Connecting& how) { connected_shape(s.masses, scale, how); };
    takes_only("pixels_per_mm", {1e-3, 1000, "pixels/mm"}, [&](double v) { shape(v, {}); });
    takes_only("island_mm2", {0, 1e6, "mm²"}, [&](double v) { shape(1, {.island_mm2 = v}); });
    takes_only("bridge_mm", {0, 1000, "mm"}, [&](double v) { shape(1, {.bridge_mm = v}); });
}

TEST_CASE("an order is refused with a cell, band, branch, pace or open time out of range", "[law][reference]") {
    const tests::Scene s({"dd..dd", "dd..dd"});
    const Connected c = connected_shape(s.masses, 1);
    const auto order = [&](double scale, const Ordering& how) { painting_order(s.masses, c, scale, how); };
    takes_only("pixels_per_mm", {1e-3, 1000, "pixels/mm"}, [&](double v) { order(v, {}); });
    takes_only("cell_mm", {0.01, 100, "mm"}, [&](double v) { order(1, {.cell_mm = v}); });
    takes_only("band_mm", {0.1, 1000, "mm"}, [&](double v) { order(1, {.band_mm = v}); });
    takes_only("branch_mm2", {0, 1e6, "mm²"}, [&](double v) { order(1, {.branch_mm2 = v}); });
    takes_only("branch_mm", {0, 1e4, "mm"}, [&](double v) { order(1, {.branch_mm = v}); });
    takes_only("pace_cm2_s", {1e-3, 1000, "cm²/s"}, [&](double v) { order(1, {.pace_cm2_s = v}); });
    takes_only("open_s", {0, 1e6, "s"}, [&](double v) { order(1, {.open_s = v}); });
}

TEST_CASE("lights are refused with a scale, mark, edge, contrast, size or reach out of range", "[law][reference]") {
    const tests::Scene s({"dd..dd", "dd..dd"});
    const auto lights = [&](double scale, const Saving& how) { lights_to_save(s.masses, s.masses, s.map, scale, how); };
    const grid::Allowed mm{0, 100, "mm"};
    takes_only("pixels_per_mm", {1e-3, 1000, "pixels/mm"}, [&](double v) { lights(v, {}); });
    takes_only("mark_mm", mm, [&](double v) { lights(1, {.mark_mm = v}); });
    takes_only("soft_mm", mm, [&](double v) { lights(1, {.soft_mm = v}); });
    takes_only("lift_lstar", {0, 100, "L*"}, [&](double v) { lights(1, {.lift_lstar = v}); });
    takes_only("smallest_mm2", {0, 1e6, "mm²"}, [&](double v) { lights(1, {.smallest_mm2 = v}); });
    takes_only("reach_mm", {0.1, 100, "mm"}, [&](double v) { lights(1, {.reach_mm = v}); });
}
