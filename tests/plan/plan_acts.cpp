// Every key of every act arrives in its struct, in SI.
#include "plan/plan_folder.h"

#include <catch2/catch.hpp>
#include <string>

using namespace tidemark;
using Catch::Detail::Approx;

namespace {

const char* const head = R"(tidemark = 1
[sheet]
size_mm = [380, 280]
paper = "cold-pressed-300"
[mix.sky]
PB29 = 1.5
[area.hill]
rectangle_mm = [20, 20, 100, 80]
[area.pond]
ellipse_mm = [180, 60, 80, 60]
)";

plan::Plan read(const std::string& steps) {
    const PlanFolder folder;
    return folder.read(head + steps);
}

template <class T> const T& act(const plan::Plan& p, int step) { return std::get<T>(p.steps.at(step).act); }

} // namespace

TEST_CASE("a wash takes a brush, its refills, and one of four ways to travel", "[plan]") {
    const plan::Plan p = read(R"(
[[step]]
do = "wash"
mix = "sky"
film_um = 100
brush = "round-12"
refill_s = 6
bead = "pick-up"
strokes = [[[10, 20], [50, 20]], [[10, 30], [50, 30], [60, 40]]]
[[step]]
do = "wash"
mix = "sky"
film_um = 100
order = "masks/sky.png"
[[step]]
do = "wash"
mix = "sky"
film_um = 100
)");
    const auto& wash = act<plan::Wash>(p, 0);
    REQUIRE(wash.brush);
    CHECK(wash.brush->id == "round-12");
    CHECK(wash.refill_s == 6);
    CHECK(wash.bead == plan::Bead::picked_up);
    CHECK(wash.travel == plan::Travel::strokes);
    REQUIRE(wash.strokes.size() == 2);
    REQUIRE(wash.strokes[1].size() == 3);
    CHECK(wash.strokes[1][2].x_m == Approx(0.06));
    CHECK(wash.strokes[1][2].y_m == Approx(0.04));
    CHECK(act<plan::Wash>(p, 1).travel == plan::Travel::order);
    CHECK(act<plan::Wash>(p, 1).order.width == 38);
    CHECK_FALSE(act<plan::Wash>(p, 2).brush);
    CHECK(act<plan::Wash>(p, 2).bead == plan::Bead::left);
    CHECK(act<plan::Wash>(p, 2).travel == plan::Travel::rows);
}

TEST_CASE("what falls from above is read in SI: strokes, spatter, spray", "[plan]") {
    const plan::Plan p = read(R"(
[[step]]
do = "charge"
mix = "sky"
strokes = 9
stroke_mm = 25
drop_mm = 8
drop_uL = 40
[[step]]
do = "spatter"
mix = "sky"
drops = 70
drop_mm = [0.5, 4]
seconds = 8
[[step]]
do = "spatter"
drops = 5
[[step]]
do = "spray"
area = "pond"
water_g_m2 = 25
droplet_mm = 0.2
seconds = 4
)");
    const auto& charge = act<plan::Charge>(p, 0);
    CHECK(charge.count == 9);
    CHECK(charge.stroke_m == Approx(0.025));
    CHECK(charge.drop_radius_m == Approx(0.004));
    CHECK(charge.drop_m3 == Approx(40e-9));
    const auto& spatter = act<plan::Spatter>(p, 1);
    CHECK(p.mixes[spatter.mix].name == "sky");
    CHECK(spatter.count == 70);
    CHECK(spatter.smallest_m == Approx(0.5e-3));
    CHECK(spatter.largest_m == Approx(4e-3));
    CHECK(spatter.seconds == 8);
    CHECK(act<plan::Spatter>(p, 2).mix == -1);
    const auto& spray = act<plan::Spray>(p, 3);
    CHECK(spray.mix == -1);
    CHECK(spray.area == p.area_index("pond"));
    CHECK(spray.water_kg_m2 == Approx(0.025));
    CHECK(spray.droplet_m == Approx(0.2e-3));
    CHECK(spray.seconds == 4);
}

TEST_CASE("what touches the paper is read in SI: lift, dry brush, soften, resist, body colour", "[plan]") {
    const plan::Plan p = read(R"(
[[step]]
do = "lift"
area = "hill"
tool = "scrub"
pace_cm2_s = 2
[[step]]
do = "drybrush"
mix = "sky"
film_um = 30
share = 0.25
pace_cm2_s = 12
[[step]]
do = "soften"
area = "hill"
along = "pond"
width_mm = 8
water_g_m2 = 60
speed_cm_s = 5
[[step]]
do = "reserve"
area = "pond"
pace_cm2_s = 4
[[step]]
do = "uncover"
area = "pond"
[[step]]
do = "body"
area = "pond"
mix = "sky"
paint_g_m2 = 80
pace_cm2_s = 3
)");
    const auto& lift = act<plan::Lift>(p, 0);
    CHECK(lift.tool == plan::LiftTool::scrub);
    CHECK(std::string(plan::word(lift.tool)) == "scrub");
    CHECK(lift.area == p.area_index("hill"));
    CHECK(lift.pace_m2_s == Approx(2e-4));
    const auto& brush = act<plan::Drybrush>(p, 1);
    CHECK(brush.film_m == Approx(30e-6));
    CHECK(brush.share.value() == Approx(0.25));
    CHECK(brush.pace_m2_s == Approx(12e-4));
    const auto& soften = act<plan::Soften>(p, 2);
    CHECK(soften.along == p.area_index("pond"));
    CHECK(soften.width_m == Approx(8e-3));
    CHECK(soften.water_kg_m2 == Approx(0.06));
    CHECK(soften.speed_m_s == Approx(0.05));
    CHECK(act<plan::Reserve>(p, 3).pace_m2_s == Approx(4e-4));
    CHECK(act<plan::Uncover>(p, 4).area == p.area_index("pond"));
    const auto& body = act<plan::Body>(p, 5);
    CHECK(body.paint_kg_m2 == Approx(0.08));
    CHECK(body.pace_m2_s == Approx(3e-4));
}

TEST_CASE("a wait asks for the usual share of an area, or for the plan's", "[plan]") {
    const plan::Plan p = read(R"(
[[step]]
do = "dry"
until = "damp"
[[step]]
do = "dry"
until = "dry"
share = 0.6
[[step]]
do = "lift"
tool = "tissue"
when = { area = "hill", is = "moist", share = 0.3, longest = "9:00" }
[[step]]
do = "lift"
tool = "tissue"
when = { area = "hill", is = "moist" }
)");
    CHECK(act<plan::Dry>(p, 0).share == Approx(0.8));
    CHECK(act<plan::Dry>(p, 1).share == Approx(0.6));
    CHECK(std::get<plan::WhenStage>(p.steps[2].start).share == Approx(0.3));
    CHECK(std::get<plan::WhenStage>(p.steps[3].start).share == Approx(0.5));
}
