// A plan read again with values changed is the plan that has these values in its file.
#include "plan/variants.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "plan/another_day.h"
#include "plan/digest.h"
#include "plan/read_plan.h"
#include "support/temporary_folder.h"

using namespace tidemark;

namespace {

const std::string text = R"(tidemark = 1
[sheet]
size_mm = [60, 40]
paper = "cold-pressed-300"
[mix.blue]
PB29 = 1.5
[area.left]
rectangle_mm = [0, 0, 30, 40]
[[step]]
name = "wet the sky"
do = "wet"
water_g_m2 = 120
[[step]]
name = "hills"
do = "wash"
area = "left"
mix = "blue"
film_um = 80
when = { is = "damp", longest = "20:00" }
[[step]]
name = "hills again"
do = "lift"
area = "left"
tool = "tissue"
after = "hills"
wait = "1:00"
[[step]]
name = "shade"
do = "drybrush"
area = "left"
mix = "blue"
)";

struct Folder {
    tests::TemporaryFolder folder;
    materials::Presets presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    plan::Variants plans{folder.put("plan.toml", text), presets};

    /// The plan whose file has `now` in the place of `was`.
    plan::Plan edited(const std::string& was, const std::string& now) const {
        std::string other = text;
        other.replace(other.find(was), was.size(), now);
        return plan::read_plan(folder.put("edited.toml", other), presets);
    }
    plan::Plan with(const std::string& step, const std::string& key, const std::string& value) const {
        return plans.with({{step, key, value, "--vary"}});
    }
};

bool same(const plan::Plan& a, const plan::Plan& b) { return plan::digest(a).same_as(plan::digest(b)); }

} // namespace

TEST_CASE("a changed value makes the plan whose file has that value", "[law][plan]") {
    const Folder f;
    CHECK(same(f.plans.base(), f.edited("\n", "\n")));
    CHECK(same(f.with("hills", "film_um", "95"), f.edited("film_um = 80", "film_um = 95")));
    CHECK(same(f.with("wet the sky", "side", "both"), f.edited("water_g_m2 = 120", "water_g_m2 = 120\nside = \"both\"")));
    CHECK(same(f.with("hills", "longest", "5:00"), f.edited("20:00", "5:00")));
    CHECK(same(f.with("hills", "is", "moist"), f.edited("\"damp\"", "\"moist\"")));
    CHECK(same(f.with("hills again", "wait", "0:30"), f.edited("1:00", "0:30")));
    CHECK(same(f.with("shade", "share", "0.4"), f.edited("do = \"drybrush\"", "do = \"drybrush\"\nshare = 0.4")));
    CHECK(same(f.with("mix.blue", "PB29", "2"), f.edited("PB29 = 1.5", "PB29 = 2")));
    CHECK(same(f.with("sheet", "room", "humid-summer"), f.edited("[mix.blue]", "room = \"humid-summer\"\n[mix.blue]")));
    CHECK(same(f.with("hills again", "at", "9:00"), f.edited("after = \"hills\"\nwait = \"1:00\"", "at = \"9:00\"")));
    CHECK_FALSE(same(f.with("hills", "film_um", "95"), f.plans.base()));
}

TEST_CASE("a wait puts the clock in the place of a stage, or of nothing", "[law][plan]") {
    const Folder f;
    CHECK(same(f.with("hills", "wait", "2:00"),
               f.edited("when = { is = \"damp\", longest = \"20:00\" }", "after = \"wet the sky\"\nwait = \"2:00\"")));
    CHECK(same(f.with("shade", "wait", "2:00"), f.edited("do = \"drybrush\"", "do = \"drybrush\"\nafter = \"hills again\"\nwait = \"2:00\"")));
}

TEST_CASE("a step is known by the words that its name begins with, when no other begins so", "[law][plan]") {
    const Folder f;
    CHECK(f.plans.whole_name("wet", "--vary") == "wet the sky");
    CHECK(f.plans.whole_name("hills", "--vary") == "hills"); // its whole name, though another begins with it
    CHECK(f.plans.whole_name("mix.blue", "--vary") == "mix.blue");
    CHECK_THROWS_WITH(f.plans.whole_name("we", "--vary"), Catch::Contains("--vary: unknown step \"we\""));
    CHECK_THROWS_WITH(f.plans.whole_name("mountains", "--vary"), Catch::Contains("allowed: wet the sky, hills, hills again, shade"));
}

TEST_CASE("what is wrong with a value is what the reader says, with the option in the place of the line", "[wrong][plan]") {
    const Folder f;
    const auto said = [&](const std::string& step, const std::string& key, const std::string& value) -> std::string {
        try {
            f.with(step, key, value);
        } catch (const grid::BadInput& bad) {
            return bad.problems().size() == 1 ? bad.problems()[0].line() : "more than one";
        }
        return "nothing";
    };
    CHECK(said("hills", "film_um", "900") == "--vary: step \"hills\": film_um is 900; allowed: 10 to 600 µm");
    CHECK(said("hills", "film", "90") == "--vary: step \"hills\": unknown key \"film\"; did you mean \"film_um\"?");
    CHECK(said("hills again", "wait", "5") == "--vary: step \"hills again\": wait \"5\" is no time; did you mean \"5:00\"?");
    CHECK(said("hills", "share", "2") == "--vary: step \"hills\": when: share is 2; allowed: 0.05 to 1");
    CHECK(said("wet the sky", "wait", "1:00") == "--vary: step \"wet the sky\": wait without after; allowed: after = \"a step's name\"");
    CHECK_THAT(said("hills", "area", "left"), Catch::StartsWith("--vary: area of a step can't be varied; allowed: "));
    CHECK(said("mix.blue", "PB28", "1") == "--vary: mix \"blue\" has no \"PB28\"; allowed: PB29");
    CHECK(said("mix.bleu", "PB29", "1") == "--vary: unknown mix \"bleu\"; did you mean \"blue\"?");
    CHECK(said("sheet", "seed", "1") == "--vary: \"seed\" of the sheet can't be varied; allowed: room, paper");
}

TEST_CASE("differences name the steps, and what of them", "[law][plan]") {
    const Folder f;
    const plan::Values base = plan::values_of(f.plans.base());
    CHECK(plan::differences(base, base).empty());
    const auto film = plan::differences(base, plan::values_of(f.with("hills", "film_um", "95")));
    REQUIRE(film.size() == 1);
    CHECK((film[0].step == 1 && film[0].act && !film[0].start));
    const auto wait = plan::differences(base, plan::values_of(f.with("hills again", "wait", "2:00")));
    REQUIRE(wait.size() == 1);
    CHECK((wait[0].step == 2 && !wait[0].act && wait[0].start));
    CHECK(plan::differences(base, plan::values_of(f.with("mix.blue", "PB29", "2"))).size() == 2); // who lay it
    CHECK_FALSE(plan::same_sheet(base, plan::values_of(f.with("sheet", "room", "humid-summer"))));
}

TEST_CASE("days are spread as they say, the same for the same seed, and stay within the plan's ranges", "[law][plan]") {
    for (const int n : {8, 64}) {
        const auto days = plan::days(5, n);
        CHECK((days == plan::days(5, n)));
        CHECK((days != plan::days(6, n)));
        double more = 0, water = 0, square = 0;
        for (const plan::Day& d : days) more += d.humidity_more, water += d.water - 1, square += (d.pace - 1) * (d.pace - 1);
        CHECK(more / n == Approx(0).margin(1e-9)); // each value has its opposite
        CHECK(water / n == Approx(0).margin(1e-9));
        // The middles of equal shares lie a little closer than all of a share: 0.93 of the whole spread for 8, 0.99 for 64.
        CHECK(std::sqrt(square / n) == Approx(plan::pace_sigma).epsilon(n == 8 ? 0.09 : 0.02));
    }
    // Abramowitz & Stegun (1964), table 26.5: where the normal distribution has 97.5, 90 and 99.5 percent below
    CHECK(plan::normal_quantile(0.975) == Approx(1.95996).epsilon(1e-5));
    CHECK(plan::normal_quantile(0.90) == Approx(1.28155).epsilon(1e-5));
    CHECK(plan::normal_quantile(0.005) == Approx(-2.57583).epsilon(1e-5));

    const Folder f;
    plan::Values values = plan::values_of(f.plans.base());
    values.room.humidity = 0.98;
    std::get<plan::Wash>(values.steps[1].act).film_m = 590e-6;
    const plan::Values wet = plan::on({0.05, 1.5, 2}, values);
    CHECK(wet.room.humidity == Approx(0.99));
    CHECK(std::get<plan::Wet>(wet.steps[0].act).water_kg_m2 == Approx(0.18));
    CHECK(std::get<plan::Wash>(wet.steps[1].act).film_m == Approx(600e-6));
    CHECK(std::get<plan::Wash>(wet.steps[1].act).pace_m2_s == Approx(12e-4));
    CHECK(std::get<plan::Lift>(wet.steps[2].act).pace_m2_s == Approx(10e-4));
}
