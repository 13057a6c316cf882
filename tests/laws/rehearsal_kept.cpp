// A rehearsal kept at a moment and gone on with is the rehearsal that was never stopped.
#include "rehearsal/kept.h"

#include <catch2/catch.hpp>

#include <omp.h>
#include <set>

#include "grid/problem.h"
#include "support/rehearsal_scene.h"
#include "support/temporary_folder.h"

using namespace tidemark;
using rehearsal::KeptMoment;
using rehearsal::Rehearsal;

namespace {

/// Acts of many kinds: resist, both faces wetted, a brush that has to be filled, drops, a board that is tilted, warm air,
/// waits for a stage, a second pass over a dried one, lifting.
plan::Plan many_acts() {
    plan::Plan p = scene::small_sheet({{"PB29", 3}, {"PW6", 30}}, "cold-pressed-185");
    p.width_m = 0.110, p.height_m = 0.080;
    const int left = scene::add_band(p, "left", 0.010, 0.050, 0.010), right = scene::add_band(p, "right", 0.070, 0.100, 0.010),
              spot = scene::add_band(p, "spot", 0.080, 0.085, 0.030);
    plan::Wash brushed{.area = right, .mix = 1, .film_m = 110e-6, .pace_m2_s = 8e-4};
    brushed.brush = *materials::Presets::read(TIDEMARK_PRESETS_DIR).brush("flat-25");
    brushed.refill_s = 2;
    const auto add = [&](const char* name, plan::Start start, plan::Act act) {
        p.steps.push_back({.name = name, .line = 1, .start = start, .act = act});
    };
    const auto after = [&] { return plan::AfterStep{static_cast<int>(p.steps.size()) - 1, 0}; };
    add("reserve", plan::AtTime{0}, plan::Reserve{.area = spot, .pace_m2_s = 20e-4});
    add("wet", after(), plan::Wet{.side = plan::Side::both, .water_kg_m2 = 0.12, .area = left});
    add("brushed", after(), brushed);
    add("wash", after(), plan::Wash{.area = left, .mix = 2, .film_m = 80e-6, .pace_m2_s = 20e-4});
    add("drops", after(), plan::Charge{.area = left, .mix = 1, .count = 30, .drop_m3 = 8e-9, .stroke_m = 6e-3});
    add("tilt", after(), plan::Tilt{.angle_rad = 0.1});
    add("level", plan::AfterStep{5, 12}, plan::Tilt{.angle_rad = 0});
    add("warm", after(), plan::Dry{.area = right, .until = plan::Stage::damp, .longest_s = 900, .share = 0.5, .warm_air = true,
                                   .air_temperature_K = 343.15, .air_m_s = 8, .blows_rad = 0.7});
    add("glaze", plan::WhenStage{right, plan::Stage::damp, 300, 0.8},
        plan::Wash{.area = right, .mix = 1, .film_m = 60e-6, .pace_m2_s = 20e-4});
    add("lift", after(), plan::Lift{.area = right, .tool = plan::LiftTool::tissue, .pace_m2_s = 40e-4});
    add("more warmth", after(), plan::Dry{.until = {}, .longest_s = 90, .warm_air = true});
    add("scrub", after(), plan::Lift{.area = left, .tool = plan::LiftTool::scrub, .pace_m2_s = 40e-4});
    return p;
}

std::filesystem::path kept_in(const tests::TemporaryFolder& folder, const Rehearsal& run) {
    return folder.put("now.moment", rehearsal::kept_bytes(run, "plan.toml"));
}

Rehearsal again(const Rehearsal& run, double until_s = 1e6) {
    const tests::TemporaryFolder folder;
    return KeptMoment(kept_in(folder, run)).go_on(run.plan(), until_s);
}

/// All that is kept of it: two runs whose bytes are the same now will do the same from now on.
std::vector<std::uint8_t> all_of(const Rehearsal& run) { return rehearsal::kept_bytes(run, "plan.toml"); }

/// By steps, over a whole painting, with a glance at every `every`-th of them.
template <class F> void along(Rehearsal& run, int every, F&& look) {
    for (int k = 0; run.step(); ++k)
        if (k % every == 0) look();
}

} // namespace

TEST_CASE("what is kept of a rehearsal comes back to the bit, in every act", "[law][rehearsal]") {
    Rehearsal run(many_acts(), {.cell_m = 2e-3, .until_s = 1500});
    std::set<std::string> acting;
    long looks = 0;
    along(run, 7, [&] {
        CHECK((all_of(again(run)) == all_of(run)));
        if (run.acting()) acting.insert(run.plan().steps[*run.acting()].name);
        ++looks;
    });
    CHECK(acting.size() >= 7);
    CHECK(looks > 40);
}

TEST_CASE("gone on with, a kept rehearsal takes the same steps as one never stopped", "[law][rehearsal]") {
    // From every kept moment some steps are taken by both: what is forgotten shows in a few of them.
    Rehearsal run(many_acts(), {.cell_m = 2e-3, .until_s = 1500});
    along(run, 9, [&] {
        Rehearsal resumed = again(run, 1500), never_stopped = run;
        for (int k = 0; k < 14; ++k) {
            const bool more = never_stopped.step();
            REQUIRE(resumed.step() == more);
            if (!more) break;
        }
        REQUIRE((all_of(resumed) == all_of(never_stopped)));
    });
}
