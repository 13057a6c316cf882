// Laps, blooms and runs: found when they are there, not when only the record would allow them.
#include "judge/marks.h"
#include "support/grain.h"
#include "support/judge_scene.h"
#include "support/refused.h"

#include <catch2/catch.hpp>

using namespace judge_scene;

namespace {

constexpr double cell_mm = 0.5, wide_mm = 100, high_mm = 80, flat_L = 60;

double line_y(double x) { return 40 + 4 * std::sin(x / 15); } // where the hand came back

/// A wash over all but a border of 10 mm; its lower part two minutes later. `drop`: of water, in its moist middle.
Scene washed(double drop_x, double drop_y, double drop_mm = 3) {
    Scene s = make_scene(wide_mm, high_mm, cell_mm);
    const auto inside = [](double x, double y) { return x > 10 && x < 90 && y > 10 && y < 70; };
    add_wash(s, "wash", add_area(s, "field", inside));
    plan::Step drop{.name = "drop", .line = 1, .start = plan::AtTime{570}, .act = plan::Charge{.area = 0, .mix = 0}};
    s.plan.steps.push_back(drop);
    s.record.acts.push_back({});
    s.record.acts[0].pigment_kg = {1e-6};
    s.record.acts[1].step = 1, s.record.acts[1].start_s = 570, s.record.acts[1].water_kg = 1e-5;
    for (auto& act : s.record.acts)
        act.cells = {s.geometry.nx, s.geometry.ny};
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            const double x = (i + 0.5) * cell_mm, y = (j + 0.5) * cell_mm;
            if (inside(x, y))
                s.record.acts[0].cells.meet(i, j, sheet::CellStage::moist, y < line_y(x) ? x / 10 : 120 + x / 10);
            if (std::hypot(x - drop_x, y - drop_y) < drop_mm)
                s.record.acts[1].cells.meet(i, j, sheet::CellStage::moist, 0);
            s.lstar(i, j) = inside(x, y) ? flat_L : 95;
        }
    return s;
}
Scene washed() { return washed(50, 25); }

template <class At> void each_cell(const Scene& s, At&& at) {
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) at(i, j);
}
template <class Change> void change(Scene& s, Change&& by) {
    each_cell(s, [&](int i, int j) { s.lstar(i, j) += static_cast<float>(by((i + 0.5) * cell_mm, (j + 0.5) * cell_mm)); });
}
std::vector<judge::Mark> marks_of(const Scene& s, judge::MarkKind kind) {
    std::vector<judge::Mark> out;
    for (const auto& m : judge::find_marks(s.plan, s.record, s.lstar, s.geometry, s.edges()))
        if (m.kind == kind)
            out.push_back(m);
    return out;
}
double hump(double d, double sd) { return std::exp(-0.5 * d * d / (sd * sd)); }

} // namespace

TEST_CASE("a lap is found where it is to be seen, as a dark line and as a step", "[law][judge]") {
    unsigned seed = 0;
    for (const double dark_L : {3.5, 6.0, 12.0})
        for (const double sd_mm : {0.5, 1.0})
            for (const bool is_step : {false, true}) {
                Scene s = washed();
                change(s, [&](double x, double y) {
                    const double d = y - line_y(x);
                    return x < 10 || x > 90 || y < 10 || y > 70 ? 0
                           : is_step                            ? (d > 0 ? -dark_L - 1 : 0.0)
                                                                : -dark_L * hump(d, sd_mm);
                });
                scene::add_grain(s.lstar, cell_mm, 1, 0.4, ++seed);
                CAPTURE(dark_L, sd_mm, is_step);
                const auto laps = marks_of(s, judge::MarkKind::lap);
                REQUIRE(laps.size() == 1);
                CHECK(laps[0].size_mm > 56); // of 80; at the ends there is no wash to compare it with
                CHECK(laps[0].size_mm < 90);
                CHECK(std::abs(laps[0].y_mm - line_y(laps[0].x_mm)) < 2);
                CHECK(laps[0].minute == Approx(2).margin(0.2));
                CHECK(laps[0].dark_L == Approx(is_step ? dark_L + 1 : dark_L).epsilon(0.35));
                CHECK(laps[0].text.find("\"wash\" came back to its own edge, which had begun to set") !=
                      std::string::npos);
            }
}

TEST_CASE("a lap over a part of the join is as long as that part", "[law][judge]") {
    Scene s = washed();
    change(s, [&](double x, double y) { return x > 30 && x < 60 ? -6 * hump(y - line_y(x), 0.7) : 0.0; });
    scene::add_grain(s.lstar, cell_mm, 1, 0.4, 3);
    const auto laps = marks_of(s, judge::MarkKind::lap);
    REQUIRE(laps.size() == 1);
    CHECK(laps[0].size_mm == Approx(30).margin(9)); // read over 10 mm
    CHECK(laps[0].x_mm == Approx(45).margin(5));
}

TEST_CASE("a bloom is found with its place, breadth, moment and the stage it met", "[law][judge]") {
    unsigned seed = 100;
    for (const double radius_mm : {3.0, 5.0, 8.0})
        for (const double pale_L : {3.0, 8.0})
            for (const double rim_L : {3.0, 6.0}) {
                Scene s = washed(50, 25);
                change(s, [&](double x, double y) {
                    const double turn = std::atan2(y - 25, x - 50);
                    const double d = std::hypot(x - 50, y - 25) - radius_mm * (1 + 0.1 * std::sin(5 * turn)); // lobes
                    return d < 0 ? pale_L : -rim_L * hump(d - 1.5, 0.8);
                });
                scene::add_grain(s.lstar, cell_mm, 1, 0.4, ++seed);
                CAPTURE(radius_mm, pale_L, rim_L);
                const auto blooms = marks_of(s, judge::MarkKind::bloom);
                REQUIRE(blooms.size() == 1);
                CHECK(std::hypot(blooms[0].x_mm - 50, blooms[0].y_mm - 25) < 2);
                CHECK(blooms[0].size_mm == Approx(2 * (radius_mm + 1.5)).margin(2.5));
                CHECK(blooms[0].pale_L == Approx(pale_L).epsilon(0.35));
                CHECK(blooms[0].dark_L == Approx(rim_L).epsilon(0.5)); // a rim of 1 mm, smoothed by 0.6
                CHECK(blooms[0].minute == Approx(9.5));
                CHECK(blooms[0].met == "moist");
                CHECK(blooms[0].text.find("\"drop\" at 9:30 met moist paper") != std::string::npos);
            }
}

TEST_CASE("paint that was only thinned, or only darkened, is no bloom; nor is one that nobody dropped",
          "[law][judge]") {
    const auto disc = [](double x, double y) { return std::hypot(x - 50, y - 25); };
    Scene thinned = washed(), darkened = washed(), one_sided = washed(), elsewhere = washed(80, 60),
          on_wet = washed();
    change(thinned, [&](double x, double y) { return 8 * hump(disc(x, y), 4); });
    change(darkened, [&](double x, double y) { return -8 * hump(disc(x, y), 4); });
    change(one_sided, [&](double x, double y) { // a sixth of the way round
        const bool rimmed = std::abs(std::atan2(y - 25, x - 50)) < 0.5;
        return disc(x, y) < 5 ? 6.0 : rimmed ? -5 * hump(disc(x, y) - 6.5, 0.8) : 0.0;
    });
    for (Scene* s : {&elsewhere, &on_wet})
        change(*s, [&](double x, double y) { return disc(x, y) < 5 ? 6.0 : -5 * hump(disc(x, y) - 6.5, 0.8); });
    each_cell(on_wet, [&](int i, int j) {
        if (on_wet.record.acts[1].cells.touched(i, j))
            on_wet.record.acts[1].cells.meet(i, j, sheet::CellStage::wet, 0);
    });
    for (Scene* s : {&thinned, &darkened, &one_sided, &elsewhere, &on_wet}) {
        scene::add_grain(s->lstar, cell_mm, 0.5, 0.4, 7);
        CHECK(marks_of(*s, judge::MarkKind::bloom).empty());
    }
}

TEST_CASE("a run is found on bare paper, with how far it went and who was there", "[law][judge]") {
    unsigned seed = 200;
    for (const double long_mm : {4.0, 6.0, 8.0})
        for (const double dark_L : {6.0, 30.0}) {
            Scene s = washed();
            change(s, [&](double x, double y) {
                return std::abs(x - 40) < 1.5 && y > 70 && y < 70 + long_mm ? -dark_L : 0.0;
            });
            scene::add_grain(s.lstar, cell_mm, 0.3, 0.4, ++seed);
            CAPTURE(long_mm, dark_L);
            const auto runs = marks_of(s, judge::MarkKind::run);
            REQUIRE(runs.size() == 1);
            CHECK(runs[0].size_mm == Approx(long_mm).margin(1));
            CHECK(runs[0].x_mm == Approx(40).margin(2));
            CHECK(runs[0].y_mm == Approx(70 + long_mm).margin(1));
            CHECK(runs[0].step == 0);
        }
}

TEST_CASE("a mask overstepped by two millimetres, or clear water, is no run", "[law][judge]") {
    Scene near = washed(), wetted = washed();
    for (Scene* s : {&near, &wetted})
        change(*s, [&](double x, double y) {
            return std::abs(x - 40) < 1.5 && y > 70 && y < (s == &near ? 72 : 78) ? -20.0 : 0.0;
        });
    each_cell(wetted, [&](int i, int j) { wetted.record.acts[1].cells.touch(i, j, sheet::Touched::yes); });
    CHECK(marks_of(near, judge::MarkKind::run).empty());
    CHECK(marks_of(wetted, judge::MarkKind::run).empty());
}

TEST_CASE("grain alone makes no mark, in a hundred washes", "[law][judge]") {
    int laps = 0, blooms = 0, runs = 0;
    for (unsigned seed = 1; seed <= 100; ++seed) {
        Scene s = washed();
        scene::add_grain(s.lstar, cell_mm, 0.5 + 0.03 * seed, seed % 3 == 0 ? 0.3 : seed % 3 == 1 ? 0.6 : 0.9, seed);
        for (const auto& m : judge::find_marks(s.plan, s.record, s.lstar, s.geometry, {}))
            ++(m.kind == judge::MarkKind::lap ? laps : m.kind == judge::MarkKind::bloom ? blooms : runs);
    }
    CHECK(laps == 0);
    CHECK(blooms == 0);
    CHECK(runs == 0);
}

TEST_CASE("marks are refused by rules out of range", "[law][judge]") {
    using judge::MarkRules;
    const Scene s = washed();
    const auto found = [&](const MarkRules& r) { judge::find_marks(s.plan, s.record, s.lstar, s.geometry, {}, r); };
    struct Of {
        const char* name;
        grid::Allowed allowed;
        double MarkRules::*member;
    };
    const grid::Allowed mm{0.01, 1000, "mm"}, lightness{0, 100, "L*"};
    for (const Of& of :
         {Of{"lap_from_mm", mm, &MarkRules::lap_from_mm}, Of{"lap_line_L", lightness, &MarkRules::lap_line_L},
          Of{"lap_step_L", lightness, &MarkRules::lap_step_L},
          Of{"back_after_s", {0, 1e5, "s"}, &MarkRules::back_after_s},
          Of{"bloom_from_mm", mm, &MarkRules::bloom_from_mm}, Of{"bloom_pale_L", lightness, &MarkRules::bloom_pale_L},
          Of{"bloom_rim_L", lightness, &MarkRules::bloom_rim_L}, Of{"run_from_mm", mm, &MarkRules::run_from_mm},
          Of{"run_dark_L", lightness, &MarkRules::run_dark_L}, Of{"grains", {0, 100}, &MarkRules::grains}})
        scene::takes_only(of.name, of.allowed, [&](double v) {
            MarkRules rules;
            rules.*of.member = v;
            found(rules);
        });
}
