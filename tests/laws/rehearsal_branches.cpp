// Variants that share their beginnings end as runs of their own do.
#include "rehearsal/branches.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

#include "grid/problem.h"
#include "rehearsal/kept.h"
#include "sheet/archive.h"
#include "support/rehearsal_scene.h"

using namespace tidemark;
using rehearsal::Rehearsal;

namespace {

using Edit = std::function<void(plan::Values&)>;

/// Acts one after the other, by the clock while the hand is still busy, after a wait, when a stage is reached, and steps
/// that hang on these.
plan::Plan base_plan() {
    plan::Plan p = scene::small_sheet({{"PB29", 3}, {"PBr7-burnt-umber", 2}}, "cold-pressed-185");
    const int left = scene::add_band(p, "left", 0.005, 0.030, 0.004), right = scene::add_band(p, "right", 0.036, 0.056, 0.004);
    const auto add = [&](const char* name, plan::Start start, plan::Act act) {
        p.steps.push_back({.name = name, .line = 1, .start = start, .act = act});
    };
    add("wet", plan::AtTime{0}, plan::Wet{.water_kg_m2 = 0.1, .area = left, .pace_m2_s = 0.1e-4}); // nearly a minute of hand
    add("busy", plan::AtTime{10}, plan::Wash{.area = left, .mix = 1, .film_m = 60e-6, .pace_m2_s = 3e-4});
    add("drops", plan::AfterStep{1, 20}, plan::Charge{.area = left, .mix = 2, .count = 6, .drop_m3 = 4e-9});
    add("tilt", plan::AfterStep{2, 5}, plan::Tilt{.angle_rad = 0.1});
    add("right", plan::WhenStage{left, plan::Stage::damp, 300, 0.5},
        plan::Wash{.area = right, .mix = 2, .film_m = 90e-6, .pace_m2_s = 6e-4});
    add("lift", plan::AfterStep{4, 0}, plan::Lift{.area = left, .tool = plan::LiftTool::tissue, .pace_m2_s = 40e-4});
    add("warm", plan::AfterStep{5, 10}, plan::Dry{.until = plan::Stage::damp, .longest_s = 240, .share = 0.8, .warm_air = true});
    add("last", plan::AfterStep{6, 3}, plan::Wash{.area = left, .mix = 1, .film_m = 40e-6, .pace_m2_s = 10e-4});
    return p;
}

const rehearsal::Options options{.cell_m = 2e-3, .until_s = 900};

std::vector<plan::Values> edited(const plan::Plan& base, const std::vector<Edit>& edits) {
    std::vector<plan::Values> all;
    for (const Edit& edit : edits) {
        all.push_back(plan::values_of(base));
        edit(all.back());
    }
    return all;
}

using Ends = std::vector<std::vector<std::uint8_t>>;

Ends branched(const plan::Plan& base, const std::vector<plan::Values>& variants, int threads, rehearsal::BranchTimes* times = nullptr,
              std::vector<int> stop_after = {}) {
    Ends ends(variants.size());
    const auto played = rehearsal::play_branches(
        base, variants, {options, std::move(stop_after), threads},
        [&](int v, const Rehearsal& run) {
            ends[v] = rehearsal::kept_bytes(Rehearsal(run).fork(variants[v]), "plan.toml");
        },
        [](const auto&) { return true; });
    REQUIRE(played);
    if (times) *times = *played;
    return ends;
}

std::vector<std::uint8_t> alone(const plan::Plan& plan, std::vector<int> stop_after = {}) {
    Rehearsal run(plan, options);
    run.stop_after(std::move(stop_after));
    while (run.step()) {}
    return rehearsal::kept_bytes(run, "plan.toml");
}

void check_as_alone(const std::vector<Edit>& edits) {
    const plan::Plan base = base_plan();
    const auto variants = edited(base, edits);
    rehearsal::BranchTimes times;
    const Ends ends = branched(base, variants, 2, &times);
    for (std::size_t v = 0; v < variants.size(); ++v) {
        INFO("variant " << v);
        CHECK((ends[v] == alone(plan::plan_of(base, variants[v]))));
        CHECK(std::count(ends.begin(), ends.end(), ends[v]) == 1); // each edit is seen
    }
    CHECK(times.common_s > 0);                  // and something was shared
    CHECK(times.all_cells < std::accumulate(times.whole_cells.begin(), times.whole_cells.end(), 0.0));
}

Edit start(int step, plan::Start s) {
    return [=](plan::Values& v) { v.steps[step].start = s; };
}
template <class Act, class F> Edit act(int step, F&& change) {
    return [=](plan::Values& v) { change(std::get<Act>(v.steps[step].act)); };
}

} // namespace

TEST_CASE("variants of one plan end to the bit as a run of each by itself", "[law][rehearsal]") {
    SECTION("waits of a step on which others hang") {
        check_as_alone({start(2, plan::AfterStep{1, 0}), start(2, plan::AfterStep{1, 7}), start(2, plan::AfterStep{1, 61})});
    }
    SECTION("a time at which the hand is still busy with an earlier act, or no longer") {
        check_as_alone({start(1, plan::AtTime{40}), start(1, plan::AtTime{44.5}), start(1, plan::AtTime{80})});
    }
    SECTION("the depth of a film, laid when the hand is free") {
        check_as_alone({act<plan::Wash>(1, [](auto& a) { a.film_m = 60e-6; }), act<plan::Wash>(1, [](auto& a) { a.film_m = 90e-6; })});
    }
    SECTION("a pace, of a step that waits for a stage") {
        check_as_alone({act<plan::Wash>(4, [](auto& a) { a.pace_m2_s = 3e-4; }), act<plan::Wash>(4, [](auto& a) { a.pace_m2_s = 9e-4; })});
    }
    SECTION("the clock in the place of a stage, and a longest wait") {
        check_as_alone({[](auto&) {}, start(4, plan::AfterStep{3, 12}), start(4, plan::AfterStep{3, 90}),
                        start(4, plan::WhenStage{0, plan::Stage::damp, 20, 0.5})});
    }
    SECTION("a slope, which begins and ends at one moment") {
        check_as_alone({act<plan::Tilt>(3, [](auto& a) { a.angle_rad = 0.02; }), act<plan::Tilt>(3, [](auto& a) { a.angle_rad = 0.2; })});
    }
    SECTION("warm air, how long and how hot") {
        check_as_alone({[](auto&) {}, act<plan::Dry>(6, [](auto& a) { a.longest_s = 15; }),
                        act<plan::Dry>(6, [](auto& a) { a.air_temperature_K = 333; })});
    }
    SECTION("the strength of a mix, from the first act that lays it") {
        check_as_alone({[](auto&) {}, [](plan::Values& v) { v.mixes[2].pigments[0].mass_fraction = 0.04; }});
    }
    SECTION("two steps at once") {
        std::vector<Edit> edits;
        for (const double wait_s : {0.0, 15.0})
            for (const double film_m : {50e-6, 70e-6, 90e-6})
                edits.push_back([=](plan::Values& v) {
                    v.steps[2].start = plan::AfterStep{1, wait_s};
                    std::get<plan::Wash>(v.steps[7].act).film_m = film_m;
                });
        check_as_alone(edits);
    }
}

TEST_CASE("variants don't depend on how many are played at a time, nor on who stops where", "[law][rehearsal]") {
    const plan::Plan base = base_plan();
    const auto variants = edited(base, {start(2, plan::AfterStep{1, 0}), start(2, plan::AfterStep{1, 30}),
                                        [](plan::Values& v) { v.room.humidity = 0.8; }});
    const Ends one = branched(base, variants, 1);
    CHECK((one == branched(base, variants, 3)));
    const Ends stopped = branched(base, variants, 2, nullptr, {4, 5});
    for (std::size_t v = 0; v < variants.size(); ++v) {
        CHECK((stopped[v] == alone(plan::plan_of(base, variants[v]), {4, 5})));
        CHECK((stopped[v] != one[v]));
    }
}

TEST_CASE("a run that halts before an act goes on as if it had not", "[law][rehearsal]") {
    const plan::Plan base = base_plan();
    Rehearsal run(base, options);
    run.halt_before({0, 1, 2, 3, 4, 5, 6, 7});
    int halts = 0;
    while (run.step()) halts += run.halted() ? 1 : 0;
    CHECK(halts == 8);
    CHECK((rehearsal::kept_bytes(run, "plan.toml") == alone(base)));
}

TEST_CASE("what has begun can't be made another, and a painter may stop it all", "[law][rehearsal]") {
    const plan::Plan base = base_plan();
    Rehearsal run(base, options);
    run.step();
    plan::Values other = plan::values_of(base);
    std::get<plan::Wet>(other.steps[0].act).water_kg_m2 = 0.2;
    CHECK_THROWS_AS(run.fork(other), grid::InternalError);
    CHECK_FALSE(rehearsal::play_branches(base, {plan::values_of(base)}, {options, {}, 1}, [](int, const Rehearsal&) {},
                                         [](const auto&) { return false; }));
}
