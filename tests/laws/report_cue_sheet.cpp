#include "report/act_text.h"
#include "report/cue_sheet.h"
#include "report/minute_line.h"
#include "support/report_scene.h"

#include <catch2/catch.hpp>

using namespace report_scene;

namespace {

constexpr double none = NAN;

/// "light" from 0:00, "dark" from 5:00, then a wait; a last wash that the run did not come to.
struct Painted {
    Scene scene = make_scene();
    judge::Verdicts verdicts;
    Painted() {
        plan::Dry dry;
        dry.until = plan::Stage::dry, dry.warm_air = true, dry.longest_s = 1200;
        add_step(scene, "dryer", dry, 600);
        plan::Step last;
        last.name = "last", last.act = plan::Wash{.area = 1, .film_m = 40e-6};
        scene.plan.steps.push_back(last);
        auto& acts = scene.record.acts;
        acts[2].water_kg = 0, acts[2].end_s = 1800;
        std::swap(acts[0], acts[1]); // a record's order is not always that of time
        verdicts.windows = {{1, "disc", 5, 8, none, none, 9}, {0, "left", 0, 4.5, 6, 12, 30}, {-1, "whole sheet", 0, none, none, 28, 30}};
        verdicts.mixes = {{"sky, pale", 0.4, 1, 1, {{"PB29", 0.004, 0.01}}, {}, {}}};
    }
    report::CueSheet sheet() const {
        return report::cue_sheet(scene.plan, scene.record, verdicts, materials::read_cautions(TIDEMARK_PRESETS_DIR));
    }
};

} // namespace

TEST_CASE("cues stand by the minute, with what is laid and what to watch for", "[law][report]") {
    const report::CueSheet sheet = Painted().sheet();
    REQUIRE(sheet.cues.size() == 4);
    const report::Cue &light = sheet.cues[0], &dark = sheet.cues[1], &dryer = sheet.cues[2], &last = sheet.cues[3];
    CHECK(light.name == "light");
    CHECK(light.from_min == 0);
    CHECK(light.to_min == Approx(1.0 / 3));
    CHECK(light.doing == "wash left in rows, 100 µm deep");
    CHECK(light.mix == "sky, pale");
    CHECK(light.laid_mL == Approx(0.2));
    CHECK(light.watch == "sheen goes 4:30, damp 6:00, dry 12:00");
    CHECK(dark.name == "dark");
    CHECK(dark.watch == "sheen goes 8:00, still moist at 9:00, when more comes");
    CHECK(dryer.waits);
    CHECK(dryer.mix.empty());
    CHECK(dryer.doing == "warm air until dry, 20:00 at most");
    CHECK(dryer.to_min == 30);
    CHECK(last.name == "last");
    CHECK(std::isnan(last.from_min));
    CHECK(last.watch == "not played in this run");
    CHECK(sheet.outcome == "Dry at 30:00.");
}

TEST_CASE("a ribbon's stages last from one minute of the window to the next", "[law][report]") {
    const report::CueSheet sheet = Painted().sheet();
    const auto spans = [&](int k) {
        std::vector<std::tuple<plan::Stage, double, double>> all;
        for (const report::StageSpan& s : sheet.cues[k].ribbon)
            all.emplace_back(s.stage, s.from_min, s.to_min);
        return all;
    };
    using plan::Stage;
    CHECK(spans(0) == std::vector<std::tuple<Stage, double, double>>{
                          {Stage::wet, 0, 4.5}, {Stage::moist, 4.5, 6}, {Stage::damp, 6, 12}, {Stage::dry, 12, 30}});
    CHECK(spans(1) == std::vector<std::tuple<Stage, double, double>>{{Stage::wet, 5, 8}, {Stage::moist, 8, 9}});
    CHECK(spans(2).empty());
    CHECK(report::ribbon_text(sheet.cues[0]) == "wet 0:00 to 4:30, moist to 6:00, damp to 12:00, dry to 30:00");
    CHECK(report::ribbon_text(sheet.cues[2]) == "waiting from 10:00 to 30:00");
}

TEST_CASE("a ribbon is drawn to the scale of the axis", "[law][report]") {
    const report::CueSheet sheet = Painted().sheet();
    report::Html h;
    report::write_ribbon(h, sheet.cues[0], 30);
    // 180 units for 30 minutes: moist from 27 on, 9 wide.
    CHECK_THAT(h.str(), Catch::Contains("<rect x=\"27.0\" y=\"4.0\" width=\"9.0\" height=\"8.0\" fill=\"url(#moist)\""));
    CHECK_THAT(h.str(), Catch::Contains("<rect x=\"36.0\" y=\"4.0\" width=\"36.0\" height=\"8.0\" fill=\"url(#damp)\""));
}

TEST_CASE("the axis ends with the last act or the last film, not with the last damp", "[law][report]") {
    Painted p;
    p.scene.record.end_s = 6000; // the dryer is done at 30:00
    CHECK(report::axis_end_min(p.sheet()) == Approx(30.6));
    p.verdicts.windows[1] = {0, "left", 0, 20, 40, 90, 100}; // moist until 40:00
    CHECK(report::axis_end_min(p.sheet()) == Approx(40.8));
    p.scene.record.end_s = 1800;
    CHECK(report::axis_end_min(p.sheet()) == 30);
}

TEST_CASE("the axis has at most eight marks", "[law][report]") {
    for (const double end : {0.4, 3.0, 7.9, 8.0, 44.0, 180.0, 1440.0, 2880.0}) {
        INFO(end);
        CHECK(std::floor(end / report::axis_step_min(end)) + 1 <= 8);
    }
    CHECK(report::axis_step_min(45) == 10);
}

TEST_CASE("a run that was stopped says where, and what it was at", "[law][report]") {
    Painted p;
    p.scene.record.dried = false, p.scene.record.end_s = 800;
    p.scene.record.acts[2].ended = false;
    const report::CueSheet sheet = p.sheet();
    CHECK(sheet.outcome == "Stopped at 13:20, not dry yet: 2 of 4 steps were done.");
    CHECK(sheet.cues[2].watch == "stopped in the middle of it");
    CHECK(sheet.cues[2].to_min == Approx(800.0 / 60));
}

TEST_CASE("a wait for a stage is told, and one in vain too", "[law][report]") {
    Painted p;
    p.scene.plan.steps[1].start = plan::WhenStage{0, plan::Stage::damp, 300, 0.8};
    CHECK_THAT(p.sheet().cues[1].watch, Catch::StartsWith("begin when left is damp; sheen goes"));
    for (auto& act : p.scene.record.acts)
        if (act.step == 1)
            act.gave_up = true, act.waited_s = 300;
    CHECK_THAT(p.sheet().cues[1].watch, Catch::StartsWith("left was not damp after 5:00: begun all the same; sheen goes"));
}

TEST_CASE("the cue sheet has the plan's cautions and everyone's", "[law][report]") {
    std::string all;
    for (const auto& c : Painted().sheet().cautions)
        all += c.what + "\n";
    CHECK_THAT(all, Catch::Contains("PY150") && Catch::Contains("dryer") && Catch::Contains("lips"));
    CHECK_THAT(all, !Catch::Contains("cadmium") && !Catch::Contains("masking") && !Catch::Contains("sun on"));
}

TEST_CASE("every act is said in words", "[law][report]") {
    const Scene s = make_scene();
    const auto said = [&](plan::Act act) {
        plan::Step step;
        step.act = std::move(act);
        return report::act_text(s.plan, step);
    };
    CHECK(said(plan::Wet{.side = plan::Side::both}) == "wet the whole sheet on both faces, 150 g/m²");
    CHECK(said(plan::Charge{.area = 0, .count = 30, .drop_m3 = 1.5e-9}) == "30 drops of 1.5 µL into left");
    CHECK(said(plan::Tilt{0.2617993878}) == "tilt the board to 15°, downhill down the sheet");
    CHECK(said(plan::Tilt{0}) == "lay the board flat");
    CHECK(said(plan::Dry{.until = {}, .longest_s = 90}) == "wait for 1:30");
    CHECK(said(plan::Lift{.area = 1}) == "lift disc with a thirsty brush");
    CHECK(said(plan::Spatter{.count = 20}) == "spatter the whole sheet: 20 marks of 0.4 to 3 mm");
    CHECK(said(plan::Spray{}) == "spray the whole sheet with a fine mist, 30 g/m²");
    CHECK(said(plan::Drybrush{.area = 0}) == "drag a nearly dry brush over left");
    CHECK(said(plan::Soften{.area = 0, .along = 1}) == "soften the edge of left along disc, 6 mm wide, with a clean damp brush");
    CHECK(said(plan::Reserve{.area = 1}) == "lay resist on disc");
    CHECK(said(plan::Uncover{.area = 1}) == "take the resist off disc");
    CHECK(said(plan::Body{.area = 1}) == "body colour on disc, 60 g/m²");
}
