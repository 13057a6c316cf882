#include "judge/mixes.h"
#include "support/a_brush.h"
#include "support/judge_scene.h"

#include <catch2/catch.hpp>

using namespace judge_scene;
using tests::brush;

TEST_CASE("a mix is the sum of what its acts laid, and a quarter to a third more to prepare", "[law][judge]") {
    Scene s = make_scene(20, 20);
    s.plan.pigments.resize(2);
    s.plan.pigments[0].id = "PB29", s.plan.pigments[1].id = "PR101";
    s.plan.mixes = {{"sky", {{0, 0.01}}, 0.006}, {"earth", {{1, 0.02}, {0, 0.01}}, 0.018}};
    for (int k = 0; k < 4; ++k)
        add_wash(s, "wash", plan::whole_sheet);
    std::get<plan::Wash>(s.plan.steps[2].act).mix = 1;
    s.plan.steps[3].act = plan::Wet{};
    for (int k = 0; k < 4; ++k) {
        s.record.acts[k].water_kg = 4e-3 * (k + 1);
        s.record.acts[k].pigment_kg = {1e-5 * (k + 1), k == 2 ? 2e-5 : 0.0};
    }
    const auto m = judge::judge_mixes(s.plan, s.record);
    REQUIRE(m.size() == 3);
    CHECK(m[0].mix == "sky");
    CHECK(m[0].laid_mL == Approx(12));
    CHECK(m[0].prepare_from_mL == 15);
    CHECK(m[0].prepare_to_mL == 16);
    REQUIRE(m[0].pigments.size() == 1);
    CHECK(m[0].pigments[0].laid_g == Approx(0.03));
    CHECK(m[0].pigments[0].prepare_g == Approx(0.04));
    CHECK(m[1].pigments[0].pigment == "PR101");
    CHECK(m[1].pigments[0].laid_g == Approx(0.02));
    CHECK(m[2].mix == "clean water");
    CHECK(m[2].laid_mL == Approx(16));
}

TEST_CASE("a brush takes up what it holds, then what it released, and what it didn't lay stays in it", "[law][judge]") {
    Scene s = make_scene(20, 20);
    s.plan.pigments.resize(1);
    s.plan.mixes = {{"sky", {{0, 0.01}}, 0.006}};
    const materials::Brush mop = brush("mop", 5e-6, 3e-6);
    for (const double mL : {7.0, 2.0, 4.0}) { // the last with a brush that never runs dry
        add_wash(s, "wash", plan::whole_sheet);
        s.record.acts.back().water_kg = 1e-3 * mL;
    }
    for (const int k : {0, 1})
        std::get<plan::Wash>(s.plan.steps[k].act).brush = mop;
    s.record.acts[0].brush_loads = 3, s.record.acts[1].brush_loads = 1;
    const auto m = judge::judge_mixes(s.plan, s.record);
    REQUIRE(m.size() == 1);
    REQUIRE(m[0].brushes.size() == 1);
    const judge::BrushUse& used = m[0].brushes[0];
    CHECK(used.brush == "mop");
    CHECK(used.washes == 2);
    CHECK(used.loads == 4);
    CHECK(used.refills() == 2);
    CHECK(used.laid_mL == Approx(9));
    CHECK(used.taken_mL == Approx(5 + 3 + 3 + 5)); // charged twice, filled up twice
    CHECK(used.stays_mL() == Approx(7));           // 4 of the first wash, 3 of the second
    CHECK(m[0].laid_mL == Approx(13));
    CHECK(m[0].prepare_from_mL == 20); // a quarter more would be 17: too little to fill the brush
    CHECK(m[0].prepare_to_mL == 20);
    const judge::BrushUse small = judge::with_brush(m[0].washes_mL, brush("round", 1.5e-6, 1e-6));
    CHECK(small.washes == 3);
    CHECK(small.loads == 7 + 2 + 4); // a load that is laid to the end needs no other
    CHECK(small.refills() == 10);
    CHECK(small.stays_mL() == Approx(3 * 0.5));
}

TEST_CASE("a mix that was never laid asks for nothing", "[law][judge]") {
    Scene s = make_scene(20, 20);
    s.plan.pigments.resize(1);
    s.plan.mixes = {{"spare", {{0, 0.01}}, 0}, {"water", {}, 0}};
    const auto m = judge::judge_mixes(s.plan, s.record);
    REQUIRE(m.size() == 1);
    CHECK(m[0].laid_mL == 0);
    CHECK(m[0].prepare_to_mL == 0);
}

TEST_CASE("every act that brings a mix asks for it; clear water is one of them, and lifting brings none", "[law][judge]") {
    Scene s = make_scene(20, 20);
    s.plan.pigments.resize(1);
    s.plan.mixes = {{"white", {{0, 0.3}}, 0.18}};
    const plan::Act acts[] = {plan::Charge{}, plan::Drybrush{}, plan::Body{}, plan::Spatter{.mix = 0}, plan::Spray{.mix = 0},
                              plan::Spatter{}, plan::Spray{}, plan::Soften{}, plan::Wet{},
                              plan::Lift{}, plan::Reserve{}, plan::Uncover{}};
    for (const plan::Act& act : acts) {
        add_wash(s, "step", plan::whole_sheet); // 1 mL each
        s.plan.steps.back().act = act;
    }
    const auto m = judge::judge_mixes(s.plan, s.record);
    REQUIRE(m.size() == 2);
    CHECK(m[0].laid_mL == Approx(5));
    CHECK(m[1].mix == "clean water");
    CHECK(m[1].laid_mL == Approx(4));
}
