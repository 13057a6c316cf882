#include "support/rehearsal_scene.h"

#include <catch2/catch.hpp>

#include <cstring>
#include <omp.h>

using namespace tidemark;

namespace {

/// Every act once, on a sheet that is large enough to be shared out among threads.
plan::Plan every_act() {
    plan::Plan p = scene::small_sheet({{"PB29", 3}, {"PW6", 30}}, "rough-300");
    p.width_m = 0.120, p.height_m = 0.090;
    const int left = scene::add_band(p, "left", 0.010, 0.050, 0.010), right = scene::add_band(p, "right", 0.070, 0.110, 0.010),
              spot = scene::add_band(p, "spot", 0.080, 0.090, 0.030);
    plan::Wash brushed{.area = right, .mix = 1, .film_m = 110e-6, .pace_m2_s = 20e-4, .travel = plan::Travel::strokes,
                       .bead = plan::Bead::picked_up};
    brushed.brush = *materials::Presets::read(TIDEMARK_PRESETS_DIR).brush("flat-25");
    brushed.refill_s = 2;
    brushed.strokes = {{{0.070, 0.020}, {0.110, 0.020}}, {{0.110, 0.042}, {0.070, 0.042}}, {{0.070, 0.064}, {0.110, 0.064}}};
    const std::pair<double, plan::Act> acts[] = {
        {0, plan::Reserve{.area = spot, .pace_m2_s = 20e-4}},
        {2, plan::Wet{.water_kg_m2 = 0.12, .area = left}},
        {10, brushed},
        {40, plan::Wash{.area = left, .mix = 1, .film_m = 80e-6, .pace_m2_s = 20e-4, .travel = plan::Travel::order,
                        .order = {.width = 3, .height = 1, .value = {0.5f, 0.1f, 0.9f}}}},
        {50, plan::Tilt{.angle_rad = 0.1}},
        {55, plan::Charge{.area = left, .mix = 2, .count = 8, .drop_m3 = 8e-9, .stroke_m = 6e-3}},
        {65, plan::Spatter{.area = left, .mix = 2}},
        {75, plan::Spray{.area = right}},
        {85, plan::Soften{.area = right, .along = {}}},
        {100, plan::Lift{.area = right, .tool = plan::LiftTool::tissue, .pace_m2_s = 40e-4}},
        {110, plan::Drybrush{.area = left, .mix = 1, .pace_m2_s = 40e-4}},
        {120, plan::Body{.area = left, .mix = 2, .pace_m2_s = 40e-4}},
        {130, plan::Lift{.area = left, .tool = plan::LiftTool::scrub, .pace_m2_s = 40e-4}},
        {140, plan::Uncover{.area = spot, .pace_m2_s = 40e-4}},
        {145, plan::Dry{.until = {}, .longest_s = 20, .warm_air = true}}};
    for (const auto& [at_s, act] : acts)
        scene::add_step(p, plan::act_word(act), at_s, act);
    return p;
}

template <class T> bool same(const grid::Field<T>& a, const grid::Field<T>& b) {
    for (int j = 0; j < a.ny(); ++j)
        if (std::memcmp(a.row(j), b.row(j), sizeof(T) * a.nx()) != 0)
            return false;
    return true;
}

} // namespace

TEST_CASE("with every act there is, the ledger closes as each begins and ends", "[law][rehearsal]") {
    const auto run = scene::played(every_act(), 1e-3, 200);
    const auto& r = run.record();
    REQUIRE(r.acts.size() == 15);
    REQUIRE(r.ledger.size() > 25);
    double lifted_kg = 0, pigment_kg = 0;
    for (const auto& act : r.acts)
        lifted_kg += act.water_lifted_kg, pigment_kg += act.pigment_lifted_kg[0];
    for (const auto& line : r.ledger) {
        CHECK(line.water_closure < 1e-6);
        CHECK(line.pigment_closure < 1e-6);
    }
    const auto& flows = r.ledger.back().flows;
    CHECK(flows.lifted_kg == Approx(lifted_kg));
    CHECK(flows.lifted_kg > 0.05 * flows.laid_kg);
    CHECK(flows.pigment_lifted_kg[0] == Approx(pigment_kg));
    CHECK(flows.gum_lifted_kg > 0);
}

TEST_CASE("every act gives the same bytes for one and two threads", "[law][rehearsal]") {
    const plan::Plan p = every_act();
    omp_set_num_threads(1);
    const auto one = scene::played(p, 1e-3, 160);
    omp_set_num_threads(2);
    const auto two = scene::played(p, 1e-3, 160);
    CHECK(same(one.sheet().film_m, two.sheet().film_m));
    CHECK(same(one.sheet().surface, two.sheet().surface));
    CHECK(same(one.sheet().front_kg_m2, two.sheet().front_kg_m2));
    for (std::size_t k = 0; k < one.sheet().pigments.size(); ++k) {
        CHECK(same(one.sheet().pigments[k].loose, two.sheet().pigments[k].loose));
        CHECK(same(one.sheet().pigments[k].bound, two.sheet().pigments[k].bound));
        CHECK(same(one.sheet().pigments[k].afloat_upper, two.sheet().pigments[k].afloat_upper));
    }
}
