// A patch whose open time is asked for with numbers out of range is refused by name and range.
#include "rehearsal/open_time.h"
#include "support/refused.h"
#include "support/small_plan.h"

using namespace tidemark;
using scene::takes_only;

TEST_CASE("an open time is refused with film, pigment, water, wait or mark out of range", "[law][rehearsal]") {
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    rehearsal::OpenPatch p;
    p.paper = *presets.paper("cold-pressed-300");
    p.room = *presets.room("outdoors-sun");
    p.pigment = *presets.pigment("PB15:3");
    const auto with = [&](double rehearsal::OpenPatch::*number, double wait_s = 0) {
        return [=](double v) {
            rehearsal::OpenPatch q = p;
            q.*number = v;
            rehearsal::lap_lstar(q, wait_s);
        };
    };
    using rehearsal::OpenPatch;
    takes_only("film_m", {20, 1000, "µm", 1e-6}, with(&OpenPatch::film_m));
    takes_only("pigment_mass_fraction", {0.001, 20, "%", 0.01}, with(&OpenPatch::pigment_mass_fraction));
    takes_only("wetted_kg_m2", {0, 1, "kg/m²"}, with(&OpenPatch::wetted_kg_m2));
    takes_only("wetted_before_s", {0, 3600, "s"}, with(&OpenPatch::wetted_before_s));
    takes_only("mark_lstar", {0.1, 100, "L*"}, with(&OpenPatch::mark_lstar));
    takes_only("wait_s", {0, 24, "h", 3600}, [&](double v) { rehearsal::lap_lstar(p, v); });
}
