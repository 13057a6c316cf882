// How long each act keeps the hand, said before a run, against what a run really takes.
#include "hand/trial.h"
#include "support/rehearsal_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;

namespace {

constexpr double cell_m = 1e-3;

materials::Brush brush(const char* id) { return *materials::Presets::read(TIDEMARK_PRESETS_DIR).brush(id); }

plan::Wash brushed(plan::Travel travel, int area = plan::whole_sheet) {
    plan::Wash wash{.area = area, .mix = 1, .film_m = 100e-6, .pace_m2_s = 4e-4, .travel = travel, .refill_s = 3};
    wash.brush = brush("round-4");
    wash.from_x_m = 0.030, wash.from_y_m = 0.015;
    wash.order = {.width = 2, .height = 1, .value = {0.9f, 0.1f}};
    if (travel == plan::Travel::strokes)
        wash.strokes = {{{0.002, 0.004}, {0.050, 0.004}, {0.058, 0.012}}, {{0.058, 0.020}, {0.004, 0.020}}};
    return wash;
}

/// A dot and a dot far smaller, whose outlines a softening hand hops between.
int add_dots(plan::Plan& p) {
    const std::pair<const char*, plan::Form> forms[] = {{"dots", plan::Ellipse{0.020, 0.015, 0.022, 0.018}},
                                                        {"dot", plan::Ellipse{0.048, 0.015, 0.006, 0.006}},
                                                        {"both", plan::AreaSet{plan::SetWord::all, {0, 1}}}};
    for (const auto& [name, form] : forms) {
        plan::Area area;
        area.name = name, area.form = form;
        p.areas.push_back(std::move(area));
    }
    return 2;
}

/// How finely a run follows the hand: a hundredth of the act, 0.25 to 2 s. What takes no time of the hand (a back that is
/// wetted) ends with the step of the film that it falls into.
double tick_s(double seconds) {
    return seconds == 0 ? rehearsal::StepSize::landing_s : std::clamp(0.01 * seconds, 0.25, 2.0);
}

/// Plays the acts one after the other and compares each with the trial.
void check_times(const plan::Plan& p) {
    hand::Trial trial(p, cell_m);
    const plan::Timetable table = plan::timetable(p, [&](int step) { return trial(step); });
    rehearsal::Rehearsal run(p, {.cell_m = cell_m});
    while (run.record().acts.size() < p.steps.size() || !run.record().acts.back().ended)
        REQUIRE(run.step());
    for (const auto& act : run.record().acts) {
        const plan::NominalTime& time = table.times[act.step];
        INFO(p.steps[act.step].name << ", act " << act.step);
        const bool waits = std::holds_alternative<plan::Dry>(p.steps[act.step].act);
        if (waits && time.waits_for_stage)
            continue;
        const double seconds = waits ? time.end_s - time.start_s : time.busy.seconds;
        CHECK(act.end_s - act.start_s == Approx(seconds).margin(tick_s(seconds)));
        CHECK(std::max(act.brush_loads - 1, 0) == time.busy.refills);
    }
}

void follow(plan::Plan& p, plan::Act act) {
    const int k = static_cast<int>(p.steps.size());
    p.steps.push_back({.name = plan::act_word(act),
                       .line = 1,
                       .start = k == 0 ? plan::Start(plan::AtTime{0}) : plan::Start(plan::AfterStep{k - 1, 0}),
                       .act = std::move(act)});
}

} // namespace

TEST_CASE("a wash takes as long as its trial says, whatever way the hand travels", "[law][rehearsal]") {
    for (const char* paper : {"hot-pressed-300", "rough-300"})
        for (const auto travel : {plan::Travel::rows, plan::Travel::downhill, plan::Travel::from_point,
                                  plan::Travel::order, plan::Travel::strokes}) {
            plan::Plan p = scene::small_sheet({{"PB29", 2}}, paper);
            follow(p, brushed(travel));                            // on dry paper
            follow(p, brushed(travel));                            // into the wet wash
            follow(p, brushed(travel, add_dots(p)));               // of a shape
            INFO(paper << ", travel " << static_cast<int>(travel));
            check_times(p);
        }
}

TEST_CASE("resist spends nothing of the brush, in a trial as in a run", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}});
    const int middle = scene::add_band(p, "middle", 0.010, 0.050, 0.002);
    follow(p, plan::Reserve{.area = middle, .pace_m2_s = 10e-4});
    follow(p, brushed(plan::Travel::rows));
    follow(p, plan::Dry{.until = {}, .longest_s = 60});
    follow(p, plan::Uncover{.area = middle, .pace_m2_s = 10e-4});
    follow(p, brushed(plan::Travel::rows, middle));
    check_times(p);
    hand::Trial trial(p, cell_m);
    std::vector<plan::Busy> busy;
    for (int k = 0; k < 5; ++k)
        busy.push_back(trial(k));
    CHECK(busy[1].refills < 2); // 18 cm² would be two refills
    CHECK(busy[4].refills >= 1);
    CHECK(busy[4].refilling_s == 3 * busy[4].refills);
}

// On wet paper it is film_um everywhere; on dry peaks at least a sixth of it, which the valleys don't give back.
TEST_CASE("rough paper that has dried takes as much of the brush as it did first, and more than wet paper", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}}, "rough-300");
    plan::Wash wash = brushed(plan::Travel::rows);
    wash.film_m = 60e-6, wash.brush->release_m3 = 0.004e-6; // a brush so small that the tooth counts
    follow(p, wash);
    follow(p, plan::Dry{.until = plan::Stage::dry, .longest_s = 24 * 3600});
    follow(p, wash);
    check_times(p);
    follow(p, wash); // at once
    hand::Trial trial(p, cell_m);
    int refills[4];
    for (int k = 0; k < 4; ++k)
        refills[k] = trial(k).refills;
    CHECK(refills[2] == refills[0]);
    CHECK(refills[3] < refills[2]);
}

TEST_CASE("every other act takes as long as its trial says", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}, {"PW6", 30}});
    const int both = add_dots(p);
    follow(p, plan::Wet{.water_kg_m2 = 0.1, .area = both, .pace_m2_s = 2e-4});
    follow(p, plan::Wet{.side = plan::Side::back, .water_kg_m2 = 0.1});
    follow(p, plan::Wet{.side = plan::Side::both, .water_kg_m2 = 0.1, .pace_m2_s = 2e-4});
    follow(p, plan::Charge{.area = 0, .mix = 1, .count = 9, .drop_m3 = 4e-9, .seconds_per_drop = 0.7});
    follow(p, plan::Charge{.area = 0, .mix = 1, .count = 5, .drop_m3 = 4e-9, .stroke_m = 5e-3, .seconds_per_drop = 1.5});
    follow(p, plan::Soften{.area = both, .along = {}, .speed_m_s = 0.01});
    follow(p, plan::Soften{.area = 0, .along = 1, .width_m = 20e-3, .speed_m_s = 0.002});
    for (const auto tool : {plan::LiftTool::thirsty_brush, plan::LiftTool::tissue, plan::LiftTool::sponge,
                            plan::LiftTool::scrub})
        follow(p, plan::Lift{.area = both, .tool = tool, .pace_m2_s = 1e-4});
    follow(p, plan::Spatter{.area = both, .count = 20, .seconds = 6.5});
    follow(p, plan::Spray{.area = both, .seconds = 3.5});
    follow(p, plan::Tilt{.angle_rad = 0.1});
    follow(p, plan::Drybrush{.area = both, .mix = 1, .pace_m2_s = 1e-4});
    follow(p, plan::Body{.area = 1, .mix = 2, .pace_m2_s = 0.2e-4});
    follow(p, plan::Dry{.until = {}, .longest_s = 90});
    check_times(p);
}
