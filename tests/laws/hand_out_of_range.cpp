// An act made in code whose numbers are no film, no drop or no hand's is refused by name and range.
#include "support/hand_scene.h"
#include "support/refused.h"

using namespace tidemark;
using scene::HandScene;
using scene::takes_only;

namespace {

const grid::Allowed water{0, 5000, "g/m²", 1e-3}, film{0, 5, "mm", 1e-3}, pace{0.001, 1000, "cm²/s", 1e-4},
    mark{0.01, 1000, "mm", 1e-3}, drop{0, 5, "mL", 1e-6}, time_s{0, 3600, "s"};

/// One number of an act changed, the act begun.
template <class Act> void only(HandScene& h, const char* name, const grid::Allowed& allowed, double Act::*member,
                               Act act) {
    takes_only(name, allowed, [&](double v) {
        act.*member = v;
        h.begin(act);
    });
}

} // namespace

TEST_CASE("an act's numbers are refused out of range when it begins", "[law][hand]") {
    auto plan = scene::small_sheet({{"PB29", 1.5}});
    const int band = scene::add_band(plan, "band", 0.020, 0.030, 0.010);
    HandScene h(plan, 1e-3);
    only(h, "water_kg_m2", water, &plan::Wet::water_kg_m2, plan::Wet{.area = band});
    only(h, "pace_m2_s", pace, &plan::Wet::pace_m2_s, plan::Wet{.area = band});
    const plan::Wash wash{.area = band, .mix = 1};
    only(h, "film_m", film, &plan::Wash::film_m, wash);
    only(h, "pace_m2_s", pace, &plan::Wash::pace_m2_s, wash);
    only(h, "refill_s", time_s, &plan::Wash::refill_s, wash);
    const plan::Charge charge{.area = band, .mix = 1, .count = 2};
    only(h, "drop_m3", drop, &plan::Charge::drop_m3, charge);
    only(h, "drop_radius_m", mark, &plan::Charge::drop_radius_m, charge);
    only(h, "stroke_m", {0, 1000, "mm", 1e-3}, &plan::Charge::stroke_m, charge);
    only(h, "seconds_per_drop", time_s, &plan::Charge::seconds_per_drop, charge);
    only(h, "pace_m2_s", pace, &plan::Lift::pace_m2_s, plan::Lift{.area = band});
    const plan::Spatter spatter{.area = band, .count = 2, .smallest_m = 1e-3, .largest_m = 1e-3};
    only(h, "smallest_m", mark, &plan::Spatter::smallest_m, spatter);
    only(h, "largest_m", mark, &plan::Spatter::largest_m, spatter);
    only(h, "seconds", time_s, &plan::Spatter::seconds, spatter);
    const plan::Spray spray{.area = band, .water_kg_m2 = 1e-3, .droplet_m = 1e-3};
    only(h, "droplet_m", {0.01, 10, "mm", 1e-3}, &plan::Spray::droplet_m, plan::Spray{.area = band, .water_kg_m2 = 0});
    only(h, "water_kg_m2", water, &plan::Spray::water_kg_m2, spray);
    only(h, "seconds", time_s, &plan::Spray::seconds, spray);
    const plan::Drybrush brush{.area = band, .mix = 1};
    only(h, "film_m", film, &plan::Drybrush::film_m, brush);
    only(h, "pace_m2_s", pace, &plan::Drybrush::pace_m2_s, brush);
    takes_only("share", {0, 1}, [&](double v) { h.begin(plan::Drybrush{.area = band, .mix = 1, .share = v}); });
    const plan::Soften soften{.area = band, .along = {}};
    only(h, "width_m", mark, &plan::Soften::width_m, soften);
    only(h, "water_kg_m2", water, &plan::Soften::water_kg_m2, soften);
    only(h, "speed_m_s", {0.01, 1000, "cm/s", 1e-2}, &plan::Soften::speed_m_s, soften);
    only(h, "pace_m2_s", pace, &plan::Reserve::pace_m2_s, plan::Reserve{.area = band});
    only(h, "pace_m2_s", pace, &plan::Uncover::pace_m2_s, plan::Uncover{.area = band});
    only(h, "paint_kg_m2", water, &plan::Body::paint_kg_m2, plan::Body{.area = band, .mix = 1});
    only(h, "pace_m2_s", pace, &plan::Body::pace_m2_s, plan::Body{.area = band, .mix = 1});
}

TEST_CASE("a brush that gives nothing and a count below nothing are refused", "[law][hand]") {
    HandScene h(scene::small_sheet({{"PB29", 1.5}}), 1e-3);
    materials::Brush brush;
    brush.release_m3 = 0;
    CHECK(scene::said([&] { h.begin(plan::Wash{.mix = 1, .brush = brush}); }) ==
          "brush.release_m3 is 0 mL; allowed: 1e-06 to 1000 mL");
    CHECK(scene::said([&] { h.begin(plan::Charge{.mix = 1, .count = -1}); }) == "count is -1; allowed: 0 to 1e+06");
}
