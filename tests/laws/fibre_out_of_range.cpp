// Paper and times beyond what the fibres' formulas are meant for are refused by name and range.
#include "fibre/advance.h"
#include "support/refused.h"

using namespace tidemark;
using materials::Paper;
using scene::takes_only;

TEST_CASE("paper that can't be, or a time that can't pass, is refused before it drinks", "[law][fibre]") {
    auto sheet = sheet::SheetState::make(8e-3, 8e-3, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
    sheet.film_m(3, 3) = 1e-4f;
    sheet.wake();
    fibre::FibreWorkspace work;
    const auto advance_with = [&](double Paper::*member, double value) {
        sheet.paper = {};
        sheet.paper.*member = value;
        auto copy = sheet;
        fibre::advance(copy, work, 1e-3);
    };
    struct Of {
        const char* name;
        grid::Allowed allowed;
        double Paper::*member;
    };
    const Of all[] = {{"paper.sorptivity_front_m_s05", {0, 3e-4, "m/√s"}, &Paper::sorptivity_front_m_s05},
                      {"paper.through_diffusivity_m2_s", {0, 1e-6, "m²/s"}, &Paper::through_diffusivity_m2_s},
                      {"paper.lateral_diffusivity_m2_s", {0, 1e-6, "m²/s"}, &Paper::lateral_diffusivity_m2_s},
                      {"paper.caliper_m", {0.05, 3, "mm", 1e-3}, &Paper::caliper_m},
                      {"paper.capacity_kg_m2", {0.02, 3, "kg/m²"}, &Paper::capacity_kg_m2}};
    for (const Of& of : all)
        takes_only(of.name, of.allowed, [&](double v) { advance_with(of.member, v); });
    sheet.paper = {};
    takes_only("dt_s", {0, 1e6, "s"}, [&](double dt) { fibre::advance(sheet, work, dt); });
    takes_only("dt_s", {0, 1e6, "s"}, [&](double dt) { fibre::creep(sheet, work.creep, sheet.front_kg_m2, dt); });
    takes_only("cell_m", {0.01, 100, "mm", 1e-3}, [&](double m) {
        auto copy = sheet;
        copy.geometry.cell_m = m;
        fibre::creep(copy, work.creep, copy.front_kg_m2, 1e-3);
    });
}
