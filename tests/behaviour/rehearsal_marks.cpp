// Marks that a rehearsal makes by itself are found on its sheet, by what made them: a drop of water into a wash that has
// lost its sheen blooms, one into the full wash thins it, one on a dry wash leaves nothing (common practice); a hand that
// dawdles leaves laps.
#include <catch2/catch.hpp>

#include "judge/marks.h"
#include "support/contact_sheet.h"
#include "support/rehearsal_scene.h"

#include <fmt/core.h>

using namespace tidemark;

namespace {

plan::Plan wash(double pace_m2_s) {
    plan::Plan p = scene::small_sheet({{"PB60", 0.5}});
    p.width_m = p.height_m = 0.060;
    scene::add_step(p, "wash", 0, plan::Wash{.mix = 1, .film_m = 120e-6, .pace_m2_s = pace_m2_s});
    return p;
}

plan::Plan with_drop(double after_min) {
    plan::Plan p = wash(10e-4);
    const int spot = scene::add_band(p, "spot", 0.025, 0.035, 0.025);
    scene::add_step(p, "drop", 5 + 60 * after_min,
                    plan::Charge{.area = spot, .mix = 0, .count = 1, .drop_m3 = 15e-9, .drop_radius_m = 3e-3});
    return p;
}

std::vector<judge::Mark> marks_of(const rehearsal::Rehearsal& run) {
    const auto look = sheet::look(run.sheet(), sheet::LookAs::dried);
    const auto edges = judge::judge_edges(run.plan(), run.record(), look.lstar, run.sheet().geometry);
    return judge::find_marks(run.plan(), run.record(), look.lstar, run.sheet().geometry, edges);
}

} // namespace

TEST_CASE("the bloom of a drop into a moist wash is found, none is where a drop thinned or dried away", "[behaviour][rehearsal]") {
    for (const double cell_m : {1e-3, 0.5e-3}) {
        scene::ContactSheet sheet(fmt::format("marks-{:.2g}mm", cell_m * 1e3), 3, 8);
        for (const double minutes : {0.5, 6.0, 180.0}) {
            const auto run = scene::played(with_drop(minutes), cell_m);
            const auto marks = marks_of(run);
            std::string said = marks.empty() ? "no mark" : marks[0].text;
            sheet.add(run.sheet(), {fmt::format("after {:g} min", minutes), said.substr(0, said.find(" at "))});
            CAPTURE(cell_m, minutes, said);
            REQUIRE(marks.size() == (minutes == 6.0 ? 1 : 0));
            if (marks.empty())
                continue;
            CHECK(marks[0].kind == judge::MarkKind::bloom);
            CHECK(marks[0].met == "moist");
            CHECK(marks[0].size_mm > 12); // pushed well beyond the drop, 6 mm across
            CHECK(std::hypot(marks[0].x_mm - 29, marks[0].y_mm - 27) < 5);
            CHECK(marks[0].minute == Approx(6.08).margin(0.05));
        }
        sheet.write();
    }
}
