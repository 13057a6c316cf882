#include "judge/windows.h"
#include "support/judge_scene.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace judge_scene;

namespace {
void sample(Scene& s, double minute, int area, double wet, double moist, double damp, double dry) {
    s.record.stages.push_back({60 * minute, area, {wet, moist, damp, dry}});
}
sheet::ActCells touched(const Scene& s, double from_x_mm, double to_x_mm) {
    sheet::ActCells cells(s.geometry.nx, s.geometry.ny);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            if ((i + 0.5) * 0.5 > from_x_mm && (i + 0.5) * 0.5 < to_x_mm)
                cells.touch(i, j, sheet::Touched::yes);
    return cells;
}
} // namespace

TEST_CASE("a window opens with the act and its stages are reached in turn", "[law][judge]") {
    Scene s = make_scene(40, 20);
    const int area = add_area(s, "half", [](double x, double) { return x < 20; });
    add_wash(s, "wash", area);      // from 0:00, the hand is ready at 0:30
    sample(s, 0, area, 0, 0, 0, 1); // dry before the brush came: not the end of the window
    sample(s, 1, area, 1, 0, 0, 0);
    sample(s, 5, area, 0.6, 0.4, 0, 0);
    sample(s, 6, area, 0.4, 0.6, 0, 0);
    sample(s, 10, area, 0, 0.2, 0.8, 0);
    sample(s, 30, area, 0, 0, 0, 1);
    const auto w = judge::judge_windows(s.plan, s.record);
    REQUIRE(w.size() == 2);
    CHECK(w[0].step == 0);
    CHECK(w[0].area == "half");
    CHECK(w[0].wet_from_min == 0);
    CHECK(w[0].moist_min == Approx(5.5));          // half of it, between samples
    CHECK(w[0].damp_min == Approx(10));            // 80 %
    CHECK(w[0].dry_min == Approx(10 + 20 * 0.95)); // 95 %
    CHECK(w[1].step == -1);
    CHECK(w[1].area == "whole sheet");
    CHECK(std::isnan(w[1].dry_min)); // no sample of the whole sheet
}

TEST_CASE("a window ends with the next act on the same place only", "[law][judge]") {
    Scene s = make_scene(40, 20);
    const int a = add_area(s, "a", [](double x, double) { return x < 20; });
    const int b = add_area(s, "b", [](double x, double) { return x > 19.8; });
    add_wash(s, "one", a), add_wash(s, "beside", b), add_wash(s, "again", a);
    s.record.acts[0].cells = touched(s, 0, 20);
    s.record.acts[1].cells = touched(s, 12, 40); // laps over two fifths
    s.record.acts[2].cells = touched(s, 4, 16);  // three fifths
    for (double minute = 1; minute < 20; minute += 1)
        sample(s, minute, a, minute < 10 ? 1 : 0, 0, minute < 10 ? 0 : 1, 0);
    const auto w = judge::judge_windows(s.plan, s.record);
    REQUIRE(w.size() == 4);
    CHECK(w[0].until_min == Approx(2)); // "again", not "beside"
    CHECK(std::isnan(w[0].moist_min));
    CHECK(w[2].moist_min == Approx(9.5));
}

TEST_CASE("an act without water opens no window", "[law][judge]") {
    Scene s = make_scene(20, 20);
    add_wash(s, "wash", plan::whole_sheet);
    s.record.acts[0].water_kg = 0;
    CHECK(judge::judge_windows(s.plan, s.record).empty());
}
