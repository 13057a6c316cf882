// A rehearsal kept at a moment and gone on with is the rehearsal that was never stopped.
#include "rehearsal/kept.h"

#include <catch2/catch.hpp>

#include <omp.h>
#include <set>

#include "grid/problem.h"
#include "sheet/archive.h"
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

/// No film is left on unsized paper full of water, so that the wash laid on a part of it spreads at once.
plan::Plan into_soaked_paper() {
    plan::Plan p = scene::small_sheet({{"PB29", 2}}, "soft-300");
    const int left = scene::add_band(p, "left", 0.005, 0.025, 0.004);
    scene::add_step(p, "soak", 0, plan::Wet{.side = plan::Side::both, .water_kg_m2 = 0.5, .pace_m2_s = 200e-4});
    scene::add_step(p, "blot", 20, plan::Lift{.tool = plan::LiftTool::tissue, .pace_m2_s = 100e-4});
    scene::add_step(p, "wash", 40, plan::Wash{.area = left, .mix = 1, .film_m = 300e-6, .pace_m2_s = 4e-4});
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
    along(run, 5, [&] {
        CHECK((all_of(again(run)) == all_of(run)));
        if (run.acting()) acting.insert(run.plan().steps[*run.acting()].name);
        ++looks;
    });
    CHECK(acting.size() >= 7);
    CHECK(looks > 40);
}

TEST_CASE("gone on with, a kept rehearsal takes the same steps as one never stopped", "[law][rehearsal]") {
    // From every kept moment some steps are taken by both: what is forgotten shows in a few of them.
    const auto compare = [](const plan::Plan& plan, double until_s) {
        Rehearsal run(plan, {.cell_m = 2e-3, .until_s = until_s});
        along(run, 9, [&] {
            Rehearsal resumed = again(run, until_s), never_stopped = run;
            for (int k = 0; k < 14; ++k) {
                const bool more = never_stopped.step();
                REQUIRE(resumed.step() == more);
                if (!more) break;
            }
            REQUIRE((all_of(resumed) == all_of(never_stopped)));
        });
    };
    SECTION("many acts") { compare(many_acts(), 1500); }
    SECTION("a front that runs into a soaked sheet") { compare(into_soaked_paper(), 400); }
}

TEST_CASE("a rehearsal gone on with ends as one never stopped, for one thread and two", "[law][rehearsal]") {
    omp_set_num_threads(1);
    Rehearsal run(many_acts(), {.cell_m = 1e-3, .until_s = 160});
    const auto acting = [](const Rehearsal& r) { return r.acting() ? r.plan().steps[*r.acting()].name : ""; };
    while (acting(run) != "drops") REQUIRE(run.step());
    for (int k = 0; k < 5; ++k) run.step();
    const tests::TemporaryFolder folder;
    const auto file = kept_in(folder, run);
    while (run.step()) {}
    for (const int threads : {1, 2}) {
        omp_set_num_threads(threads);
        Rehearsal resumed = KeptMoment(file).go_on(run.plan(), 160);
        CHECK(acting(resumed) == "drops");
        while (resumed.step()) {}
        CHECK((all_of(resumed) == all_of(run)));
    }
}

namespace {

/// What lies in an archive one after the other, whatever the values: f4 a float, i4 an int, s a string, [ ] a vector of
/// such, # a field of such.
class Shape : public grid::archives::Visits<Shape> {
  public:
    static constexpr bool reads = false;
    std::string text;
    template <class T> void number(const T&) {
        text += (std::is_floating_point_v<T> ? 'f' : 'i') + std::to_string(sizeof(T));
    }
    void string(const std::string&) { text += 's'; }
    template <class T> void vector(const std::vector<T>&) {
        const T each{};
        text += '[', (*this)(each), text += ']';
    }
    template <class T> void field(const grid::Field<T>&) { text += '#', number(T{}); }
};

template <class T> std::string shape_of(const T& x) {
    Shape shape;
    shape(x);
    return shape.text;
}

} // namespace

TEST_CASE("what is kept has the shape of its version", "[law][rehearsal]") {
    INFO("A member was added, taken away or moved: older files would be read wrong. Raise kept_kind.version, then change "
         "version and shape here.");
    const Rehearsal run(scene::small_sheet({{"PB29", 1}}), {.cell_m = 2e-3});
    CHECK(rehearsal::kept_kind.version == 7);
    CHECK(shape_of(run.sheet()) ==
          "sf8f8f8f8f8f8sf8f8f8f8#f4#f4#f4#f4#f8#f8#f4#i1#f4#f4#f4[[#f4]]#i1f8i4i4[i1]i4i4[i1]#f4#f4#"
          "f4#f4#f4");
    CHECK(shape_of(run.record()) ==
          "f8f8i1[i4f8f8f8i1i1i1sf8f8[f8]f8[f8]i4i8f8i4i4i4i4i4i4i4i4#i1#i1#i2][f8i4f8f8f8f8][f8f8f8f8f8f8f8[f8][f8]f8f8f8f8"
          "f8[f8]f8f8f8][s]");
    CHECK(shape_of(hand::Work{}) == "i4f8i1#i1i4f8[f4f4i4i4f4i1]i8f8f8f8f8f8f8#f4i8i8");
    CHECK(shape_of(air::AirWorkspace{}) == "f8f8f8f8f8f8f8f4f4[f4]f8f8f8i4i4#f4#f4#i1i8i4[f4][f4]i1sf8f8f8f8f8f8s");
    CHECK(shape_of(water::FilmSolver{}) == "i4i4[i1]#f4#f4#f4#f4i1i1i1i1f8f8");
    CHECK(shape_of(rehearsal::Options{}) == "f8f8f8f8f8i1f8i1");
}
