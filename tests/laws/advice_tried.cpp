// Advice is what was tried: it finds the minute that is wrong, and a plan that does as it says has the edge.
#include "advice/advise.h"
#include "advice/patch.h"

#include "grid/csv.h"
#include "judge/judge_run.h"
#include "rehearsal/rehearsal.h"
#include "sheet/look.h"
#include "support/sky_and_hills.h"
#include "support/temporary_folder.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>

using namespace tidemark;

namespace {

/// The hills begin so long after the sky. `more`: what follows them.
std::string plan_text(const std::string& wait, const std::string& wanted, const std::string& more = {}) {
    const std::string start = fmt::format("after = \"sky\"\nwait = \"{}\"", wait);
    return tests::plan_text({.width_mm = 44, .height_mm = 32, .blue_percent = 1, .hills_start = start, .more = more, .edge = wanted});
}

const std::string bush = R"([area.bush]
rectangle_mm = [14, 4, 14, 8]
[[step]]
name = "bush"
do = "wash"
after = "hills"
wait = "0:00"
area = "bush"
mix = "grey"
film_um = 40
pace_cm2_s = 10
[[want]]
between = ["bush", "sky"]
edge = "firm"
)";

/// A plan and its run.
struct Run {
    tests::TemporaryFolder folder;
    materials::Presets presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    plan::Variants plans;
    rehearsal::Rehearsal played;
    judge::Verdicts verdicts;

    explicit Run(const std::string& text)
        : plans(folder.put("plan.toml", text), presets), played(plans.base(), {.cell_m = 1e-3}) {
        verdicts = judged(plans.base(), played);
    }
    static judge::Verdicts judged(const plan::Plan& plan, rehearsal::Rehearsal& run) {
        while (run.step()) {}
        return judge::judge_run(plan, run.record(), sheet::look(run.sheet(), sheet::LookAs::dried).lstar, run.sheet().geometry);
    }
    /// Of the plan with an advice in it.
    judge::Verdicts with(const judge::Advice& a) const {
        const std::size_t point = a.keys.find('.'), equals = a.keys.find('=');
        const plan::Plan plan =
            plans.with({{a.keys.substr(0, point), a.keys.substr(point + 1, equals - point - 1), a.keys.substr(equals + 1), "test"}});
        rehearsal::Rehearsal run(plan, {.cell_m = 1e-3});
        return judged(plan, run);
    }
    advice::Advised advise(int threads = 2) const {
        const auto found = advice::advise({plans, played.record(), verdicts, 1e-3, threads}, [](const auto&, const auto&) { return true; });
        REQUIRE(found);
        return *found;
    }
};

} // namespace

TEST_CASE("the wrong minute of a plan is found, and the plan that does as is said has the edge", "[law][advice]") {
    const Run run(plan_text("0:20", "hard"));
    REQUIRE_FALSE(run.verdicts.wants.at(0).met);
    const advice::Advised found = run.advise();
    REQUIRE_FALSE(found.advice.empty());
    const judge::Advice& first = found.advice[0];
    CHECK_THAT(first.change, Catch::StartsWith("begin \"hills\" ") && Catch::Contains(" later: wait ") && Catch::EndsWith(" instead of 0:20"));
    CHECK_THAT(first.found, Catch::StartsWith("hills | ") && Catch::EndsWith("you wanted hard"));
    CHECK_THAT(first.instead, Catch::EndsWith("1 of 1 edges as wanted instead of 0"));
    for (const judge::Advice& a : found.advice) {
        INFO(a.keys);
        CHECK(run.with(a).wants.at(0).met);
    }
    REQUIRE(found.moments.size() == 1);
    const judge::Moment& m = found.moments[0];
    CHECK(m.any);
    CHECK_FALSE(m.met);
    CHECK(m.earliest_min > m.planned_min);
    CHECK(std::isnan(m.latest_min)); // on dry paper it stays hard
}

TEST_CASE("a moment that is said to be early or late enough is so in a plan of its own", "[law][advice]") {
    const Run run(plan_text("6:00", "soft"));
    REQUIRE_FALSE(run.verdicts.wants.at(0).met);
    const judge::Moment m = run.advise().moments.at(0);
    REQUIRE(m.any);
    CHECK(m.latest_min < m.planned_min);
    const double end_of_sky_s = run.played.record().acts[0].end_s;
    const std::string wait = grid::clock_text(std::floor(60 * m.latest_min - end_of_sky_s));
    const Run then(plan_text(wait, "soft"));
    INFO(wait << " " << m.says);
    CHECK(then.verdicts.wants.at(0).met);
}

TEST_CASE("a plan that has what it wants gets no advice", "[law][advice]") {
    const Run run(plan_text("6:00", "hard"));
    REQUIRE(run.verdicts.wants.at(0).met);
    const advice::Advised found = run.advise();
    CHECK(found.advice.empty());
    CHECK(found.moments.at(0).met);
}

TEST_CASE("advice that would spoil another edge is not given", "[law][advice]") {
    const Run alone(plan_text("0:20", "hard")), beside(plan_text("0:20", "hard", bush));
    REQUIRE(beside.verdicts.wants.size() == 2);
    REQUIRE_FALSE(beside.verdicts.wants.at(1).met);
    REQUIRE(beside.verdicts.wants.at(0).met); // the bush, which waits for the hills: dry, it is hard
    for (const judge::Advice& a : beside.advise().advice) {
        INFO(a.keys);
        CHECK(a.keys.rfind("hills.wait", 0) != 0);
        CHECK(beside.with(a).wants.at(0).met);
    }
    CHECK(alone.advise().advice.at(0).keys.rfind("hills.wait", 0) == 0);
}

TEST_CASE("advice is the same for any number of threads, and stops when it is told to", "[law][advice]") {
    const Run run(plan_text("0:20", "hard"));
    const auto one = run.advise(1), two = run.advise(2);
    REQUIRE(one.advice.size() == two.advice.size());
    for (std::size_t k = 0; k < one.advice.size(); ++k)
        CHECK((one.advice[k].keys == two.advice[k].keys && one.advice[k].instead == two.advice[k].instead));
    CHECK(one.moments.at(0).earliest_min == two.moments.at(0).earliest_min);
    int told = 0;
    CHECK_FALSE(advice::advise({run.plans, run.played.record(), run.verdicts, 1e-3, 1}, [&](const auto&, const auto&) { return ++told < 3; }));
}

TEST_CASE("a patch lays what the sheet laid there, when the hand was there", "[law][advice]") {
    const Run run(plan_text("0:20", "hard", bush));
    const sheet::Record& record = run.played.record();
    const advice::Patch patch = advice::Patches(run.plans.base(), record).around(40, 30, 40, run.plans.base().step_index("hills"));
    CHECK(patch.plan.width_m == Approx(0.040));
    CHECK(patch.plan.height_m == Approx(0.032));
    REQUIRE(patch.step_of(run.plans.base().step_index("bush")) >= 0);
    rehearsal::Rehearsal again(patch.plan, {.cell_m = 1e-3});
    again.stop_after(patch.stop_after);
    while (again.step()) {}
    for (const sheet::ActRecord& act : again.record().acts) {
        const advice::Piece& piece = patch.pieces.at(act.step);
        INFO(run.plans.base().steps[piece.step].name);
        CHECK(act.start_s == Approx(piece.start_s + piece.first_s).margin(2));
        CHECK(act.end_s - act.start_s == Approx(piece.last_s - piece.first_s).margin(2));
        for (const sheet::ActRecord& was : record.acts)
            if (was.step == piece.step)
                CHECK(act.water_kg == Approx(was.water_kg * piece.share).epsilon(0.02).margin(1e-9));
    }
}
