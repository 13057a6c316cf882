// Every act on a sheet that drinks, runs and dries. Small sheets: 60 × 30 mm at 1 mm.
#include "plan/coverage.h"
#include "support/rehearsal_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;

namespace {

constexpr double cell_m = 1e-3;

/// Mean L* of the dried look over the cells of an area.
double lightness_of(const rehearsal::Rehearsal& run, const plan::Plan& p, int area) {
    const sheet::Look look = sheet::look(run.sheet(), sheet::LookAs::dried);
    const auto cover = plan::coverage(p, area, run.sheet().geometry.nx, run.sheet().geometry.ny);
    double sum = 0, cells = 0;
    for (int j = 0; j < cover.ny(); ++j)
        for (int i = 0; i < cover.nx(); ++i)
            if (cover(i, j) >= plan::half_covered)
                sum += look.lstar(i, j), ++cells;
    return sum / cells;
}

void check_books(const rehearsal::Rehearsal& run) {
    for (const auto& line : run.record().ledger) {
        REQUIRE(line.water_closure < 1e-6);
        REQUIRE(line.pigment_closure < 1e-6);
    }
}

plan::Step when(const char* name, plan::Stage is, plan::Act act, double share = 0.95, double longest_s = 12 * 3600) {
    return {.name = name, .line = 1, .start = plan::WhenStage{plan::whole_sheet, is, longest_s, share}, .act = act};
}

/// A wash of one pigment, lifted from the middle when the sheet has reached a stage: share of its pigment taken off there.
double lifted(const char* pigment, plan::Stage is, plan::LiftTool tool) {
    plan::Plan p = scene::small_sheet({{pigment, 2}});
    const int middle = scene::add_band(p, "middle", 0.020, 0.040);
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 100e-6, .pace_m2_s = 20e-4});
    p.steps.push_back(when("lift", is, plan::Lift{.area = middle, .tool = tool, .pace_m2_s = 20e-4},
                           is == plan::Stage::moist ? 0.6 : is == plan::Stage::dry ? 1.0 : 0.95));
    const auto run = scene::played(p, cell_m);
    check_books(run);
    const auto& acts = run.record().acts;
    CHECK(run.record().dried);
    CHECK(acts[1].pigment_lifted_kg[0] == run.record().ledger.back().flows.pigment_lifted_kg[0]);
    return acts[1].pigment_lifted_kg[0] / (acts[0].pigment_kg[0] / 3);
}

} // namespace

// Common practice, by order: a wash lifts best while wet, then with its sheen going, then damp, and hardly once dry.
TEST_CASE("lifting takes most from a wet wash, then moist, damp, least from a dry one", "[behaviour][rehearsal]") {
    for (const auto tool : {plan::LiftTool::thirsty_brush, plan::LiftTool::tissue, plan::LiftTool::scrub}) {
        double before = 1;
        for (const auto is : {plan::Stage::wet, plan::Stage::moist, plan::Stage::damp, plan::Stage::dry}) {
            const double share = lifted("PB29", is, tool);
            INFO(plan::word(tool) << ", " << plan::word(is) << ": " << share << " after " << before);
            CHECK(share < before);
            before = share;
        }
        CHECK((tool == plan::LiftTool::scrub ? before > 0.15 : before < 0.02));
    }
}

// Common practice: staining pigments resist; among these by their rank in presets/pigments.csv.
TEST_CASE("a staining pigment lifts less than one that lies on top", "[behaviour][rehearsal]") {
    for (const auto& [is, tool] : {std::pair{plan::Stage::damp, plan::LiftTool::thirsty_brush},
                                   {plan::Stage::dry, plan::LiftTool::scrub}}) {
        const double loose = lifted("PB29", is, tool), stain = lifted("PB15:3", is, tool);
        INFO(plan::word(is) << ": PB29 " << loose << ", PB15:3 " << stain);
        CHECK(stain < 0.7 * loose);
    }
}

TEST_CASE("what was reserved stays paper", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB15:3", 2}});
    const int middle = scene::add_band(p, "middle", 0.022, 0.038, 0.008), spare = scene::add_band(p, "rest", 0, 0.010);
    scene::add_step(p, "reserve", 0, plan::Reserve{.area = middle});
    scene::add_step(p, "wash", 20, plan::Wash{.mix = 1, .film_m = 150e-6, .pace_m2_s = 20e-4});
    p.steps.push_back(when("uncover", plan::Stage::dry, plan::Uncover{.area = middle}, 1.0));
    const auto run = scene::played(p, cell_m);
    check_books(run);
    const double bare = sheet::dried_lstar(p.paper, {});
    CHECK(lightness_of(run, p, middle) == Approx(bare).margin(0.5));
    CHECK(lightness_of(run, p, spare) < bare - 20);
    CHECK(run.record().warnings.empty());
    CHECK(run.record().dried); // what crept in below the resist does not hold up the end
}

TEST_CASE("resist on wet paper and off wet paper is warned of", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}});
    const int left = scene::add_band(p, "left", 0, 0.030), middle = scene::add_band(p, "middle", 0.020, 0.040);
    scene::add_step(p, "wash", 0, plan::Wash{.area = left, .mix = 1, .film_m = 100e-6, .pace_m2_s = 20e-4});
    scene::add_step(p, "reserve", 10, plan::Reserve{.area = middle, .pace_m2_s = 20e-4});
    scene::add_step(p, "uncover", 30, plan::Uncover{.area = middle, .pace_m2_s = 20e-4});
    const auto run = scene::played(p, cell_m, 60);
    REQUIRE(run.record().warnings.size() == 2);
    CHECK(run.record().warnings[0] ==
          "step \"reserve\" left 3 of 6 cm2 uncovered: the paper was wet there, and resist needs it dry");
    CHECK(run.record().warnings[1].find("step \"uncover\" took resist off 0.") == 0);
    CHECK(run.record().warnings[1].find("wet or beside wet paper") != std::string::npos);
}

// Common practice: body colour covers. 60 g/m² of paint with 30 % white over a dark, dried wash.
TEST_CASE("body colour lightens a dark wash", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB15:3", 4}, {"PW6", 30}});
    const int left = scene::add_band(p, "left", 0, 0.020), right = scene::add_band(p, "right", 0.030, 0.060);
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 100e-6, .pace_m2_s = 20e-4});
    p.steps.push_back(when("body", plan::Stage::dry, plan::Body{.area = left, .mix = 2}));
    const auto run = scene::played(p, cell_m);
    check_books(run);
    INFO("dark " << lightness_of(run, p, right) << ", under body colour " << lightness_of(run, p, left));
    CHECK(lightness_of(run, p, left) > lightness_of(run, p, right) + 20);
}

TEST_CASE("body colour of 30 % and more stays on a smooth sheet at 30 degrees, a wash as deep runs", "[behaviour][rehearsal]") {
    /// Of the pigment, how much more than half ends in the lower half of the band.
    const auto run_down = [](double percent, const plan::Act& act) {
        plan::Plan p = scene::small_sheet({{"PW6", percent}}, "hot-pressed-300");
        p.tilt_rad = 0.5236;
        scene::add_band(p, "band", 0.010, 0.050, 0.010);
        scene::add_step(p, "paint", 0, act);
        const auto run = scene::played(p, cell_m);
        const auto& s = run.sheet();
        double low = 0, all = 0;
        for (int j = 0; j < s.geometry.ny; ++j)
            for (int i = 0; i < s.geometry.nx; ++i) {
                const double m = double(s.pigments[0].bound(i, j)) + s.pigments[0].inside(i, j);
                all += m, low += j >= 15 ? m : 0;
            }
        return low / all - 0.5;
    };
    for (double percent : {30.0, 40.0}) {
        const double solids = 1.6 * percent / 100, paint_kg_m2 = 0.06, film_m = paint_kg_m2 * (1 - solids) / 1000;
        const double body = run_down(percent, plan::Body{.area = 0, .mix = 1, .paint_kg_m2 = paint_kg_m2});
        const double wash = run_down(2, plan::Wash{.area = 0, .mix = 1, .film_m = film_m, .pace_m2_s = 2e-4});
        INFO(percent << " % in " << film_m * 1e6 << " um: " << body << " ran down, of a wash " << wash);
        CHECK(body < 0.01);
        CHECK(wash > 5 * body);
    }
}

TEST_CASE("an edge softened while wet is wider than one that is left", "[behaviour][rehearsal]") {
    const auto edge_mm = [](bool softened) {
        plan::Plan p = scene::small_sheet({{"PB15:3", 1}});
        const int left = scene::add_band(p, "left", 0, 0.030);
        scene::add_step(p, "wash", 0, plan::Wash{.area = left, .mix = 1, .film_m = 120e-6, .pace_m2_s = 20e-4});
        if (softened)
            scene::add_step(p, "soften", 5, plan::Soften{.area = left, .along = {}, .width_m = 10e-3});
        const auto run = scene::played(p, 0.5e-3);
        check_books(run);
        return scene::width_10_90_mm(scene::lightness_across(run.sheet()), 0.5e-3);
    };
    const double left = edge_mm(false), softened = edge_mm(true);
    INFO("left " << left << " mm, softened " << softened << " mm");
    CHECK(left < 1);
    CHECK(softened > 2);
}

TEST_CASE("pauses for a refill show up in the time a wash takes", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 1}});
    plan::Wash wash{.mix = 1, .film_m = 100e-6, .pace_m2_s = 2e-4, .refill_s = 10};
    wash.brush = *materials::Presets::read(TIDEMARK_PRESETS_DIR).brush("round-4");
    scene::add_step(p, "wash", 0, wash);
    const auto run = scene::played(p, cell_m, 120);
    const auto& act = run.record().acts[0];
    CHECK(act.brush_loads == 3); // 18 cm² of 100 µm are 0.18 mL, a charge of it 0.08 mL
    CHECK(act.end_s - act.start_s == Approx(9 + 2 * 10).margin(0.5));
}

TEST_CASE("a wait that never comes true ends at its longest, and says how far it got", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}});
    const int sky = scene::add_band(p, "sky", 0, 0.050);
    scene::add_step(p, "wash", 0, plan::Wash{.area = sky, .mix = 1, .film_m = 120e-6, .pace_m2_s = 20e-4});
    p.steps.push_back({.name = "wait", .line = 2, .start = plan::AfterStep{0, 0},
                       .act = plan::Dry{.area = sky, .until = plan::Stage::damp, .longest_s = 120}});
    p.steps.push_back({.name = "drops", .line = 3, .start = plan::WhenStage{sky, plan::Stage::dry, 60, 0.9},
                       .act = plan::Charge{.area = sky, .mix = 1, .count = 1}});
    const auto run = scene::played(p, cell_m, 240);
    const auto& r = run.record();
    REQUIRE(r.acts.size() == 3);
    CHECK(r.acts[1].stopped_waiting);
    CHECK(r.acts[1].waited_for == "sky damp");
    CHECK(r.acts[1].share_reached < 0.05);
    CHECK(r.acts[1].end_s - r.acts[1].start_s == Approx(120).margin(0.1));
    CHECK(r.acts[2].gave_up);
    CHECK_FALSE(r.acts[1].gave_up);
    CHECK(r.acts[2].waited_s == Approx(60).margin(4)); // looked at every few seconds
    REQUIRE(r.warnings.size() == 2);
    CHECK(r.warnings[0] == "step \"wait\" stopped waiting at 2:01: sky damp was waited for in 95 % of it, and 0 % had got there");
    CHECK(r.warnings[1].find("step \"drops\" began at 3:0") == 0);
    CHECK(r.warnings[1].find("because its longest wait had run out: sky dry was waited for in 90 % of it, and 0 % had got "
                             "there") != std::string::npos);
}

TEST_CASE("a wait for half of an area is over before one for nearly all of it", "[behaviour][rehearsal]") {
    const auto waited_s = [](double share) {
        plan::Plan p = scene::small_sheet({{"PB29", 2}});
        scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 120e-6, .pace_m2_s = 20e-4});
        p.steps.push_back(when("drops", plan::Stage::moist, plan::Charge{.mix = 1, .count = 1}, share));
        const auto run = scene::played(p, cell_m, 3600);
        CHECK(run.record().acts[1].share_reached >= share - 1e-9);
        CHECK(run.record().acts[1].share_reached < share + 0.2);
        return run.record().acts[1].waited_s;
    };
    CHECK(waited_s(0.3) < waited_s(0.9));
}

// Common practice: a wash is worked from its wet edge; who is too slow for the film paints the lap on dry paper.
TEST_CASE("a hand too slow for its wash is told that the wet edge was left behind", "[behaviour][rehearsal]") {
    for (const double pace_m2_s : {0.1e-4, 4e-4}) { // 3:00 and 0:05 for the sheet
        plan::Plan p = scene::small_sheet({{"PB29", 2}});
        scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 60e-6, .pace_m2_s = pace_m2_s});
        const auto run = scene::played(p, cell_m);
        const bool slow = pace_m2_s < 1e-4;
        const sheet::LeftBehind& left = run.record().acts[0].left_behind;
        CHECK((left.faces >= 20) == slow); // bands of 25 mm across a sheet of 60 mm: one lap
        const auto& warnings = run.record().warnings;
        const bool told = std::any_of(warnings.begin(), warnings.end(), [](const std::string& w) {
            return w.find("step \"wash\" left its wet edge behind: along ") == 0;
        });
        CHECK(told == slow);
        if (slow)
            CHECK((left.first_s > 30 && left.first_s < run.record().acts[0].end_s));
    }
}

TEST_CASE("a wait that ends does not switch off the dryer of another", "[behaviour][rehearsal]") {
    const auto evaporated_kg = [](bool bystander, bool push) {
        plan::Plan p = scene::small_sheet({{"PB29", 2}});
        scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 100e-6, .pace_m2_s = 20e-4});
        plan::Dry warm{.until = {}, .longest_s = 600, .warm_air = true};
        if (push)
            warm.blows_rad = 0;
        scene::add_step(p, "dryer", 2, warm);
        if (bystander)
            scene::add_step(p, "wait", 10, plan::Dry{.until = {}, .longest_s = 5});
        const auto run = scene::played(p, cell_m, 500);
        return run.record().ledger.back().flows.evaporated_kg;
    };
    for (const bool push : {false, true})
        CHECK(evaporated_kg(true, push) == Approx(evaporated_kg(false, push)).epsilon(0.01));
}

TEST_CASE("an act that follows another and finds the hand busy says that it began late", "[behaviour][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PB29", 2}});
    scene::add_step(p, "first", 0, plan::Wash{.mix = 1, .film_m = 80e-6, .pace_m2_s = 20e-4});
    scene::add_step(p, "second", 3, plan::Wash{.mix = 1, .film_m = 40e-6, .pace_m2_s = 1e-4}); // 18 s
    p.steps.push_back({.name = "third", .line = 1, .start = plan::AfterStep{0, 5},
                       .act = plan::Wash{.mix = 1, .film_m = 20e-6, .pace_m2_s = 20e-4}});
    const auto run = scene::played(p, cell_m, 60);
    const auto& warnings = run.record().warnings;
    CHECK(std::any_of(warnings.begin(), warnings.end(), [](const std::string& w) {
        return w.find("step \"third\" was due at 0:0") == 0 && w.find("the hand was busy") != std::string::npos;
    }));
}
