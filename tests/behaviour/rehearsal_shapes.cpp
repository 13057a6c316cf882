#include <catch2/catch.hpp>

#include "plan/coverage.h"
#include "plan/read_plan.h"
#include "support/rehearsal_scene.h"
#include "support/temporary_folder.h"

using namespace tidemark;

namespace {

constexpr double cell_m = 1e-3;

/// A sun left bare in a sky, a soft hill in front of both, a path over it; no picture anywhere.
const std::string lesson = R"(tidemark = 1
[sheet]
size_mm = [60, 40]
paper = "cold-pressed-300"
[mix.blue]
PB29 = 1.0
[mix.earth]
PBr7-burnt-sienna = 1.0
[area.sun]
ellipse_mm = [40, 12, 14, 14]
[area.hill]
polygon_mm = [[-10, 40], [20, 24], [70, 40]]
soft_mm = 2
[area.sky]
minus = ["sheet", "sun", "hill"]
[area.path]
line_mm = [[10, 20], [20, 32], [16, 40]]
width_mm = 3
[area.way-up]
and = ["path", "hill"]
[area.earth]
all = ["way-up", "hill"]
[[step]]
do = "wash"
area = "sky"
mix = "blue"
film_um = 100
[[step]]
do = "wash"
area = "earth"
mix = "earth"
film_um = 80
at = "0:30"
[[step]]
do = "charge"
area = "way-up"
mix = "blue"
drops = 4
drop_uL = 3
)";

plan::Plan read_lesson() {
    const tests::TemporaryFolder folder;
    return plan::read_plan(folder.put("plan.toml", lesson), materials::Presets::read(TIDEMARK_PRESETS_DIR));
}

/// The same plan with each area painted as a mask of a pixel a cell.
plan::Plan with_masks(plan::Plan p) {
    const plan::Plan shapes = p;
    for (std::size_t a = 0; a < p.areas.size(); ++a) {
        const auto cover = plan::coverage(shapes, static_cast<int>(a), 60, 40);
        p.areas[a].form = plan::Mask{};
        p.areas[a].mask = {60, 40, {}};
        for (int j = 0; j < 40; ++j)
            p.areas[a].mask.value.insert(p.areas[a].mask.value.end(), cover.row(j), cover.row(j) + 60);
    }
    return p;
}

double pigment_kg_m2(const sheet::SheetState& s, int pigment, int i, int j) {
    const auto& p = s.pigments[pigment];
    const double afloat = static_cast<double>(p.afloat_lower(i, j)) + p.afloat_upper(i, j);
    return afloat + p.loose(i, j) + p.bound(i, j) + p.inside(i, j);
}

} // namespace

TEST_CASE("a lesson made of shapes alone is painted where they are, as with masks", "[behaviour][rehearsal]") {
    const plan::Plan shapes = read_lesson();
    const auto drawn = scene::played(shapes, cell_m, 180), painted = scene::played(with_masks(shapes), cell_m, 180);
    REQUIRE(drawn.sheet().geometry.nx == 60);
    long differing = 0;
    for (int j = 0; j < 40; ++j)
        for (int i = 0; i < 60; ++i)
            for (int k = 0; k < 2; ++k)
                differing += pigment_kg_m2(drawn.sheet(), k, i, j) != pigment_kg_m2(painted.sheet(), k, i, j);
    CHECK(differing == 0);
    CHECK(pigment_kg_m2(drawn.sheet(), 0, 40, 12) == 0);     // the sun: 7 mm from any paint on dry paper
    CHECK(pigment_kg_m2(drawn.sheet(), 0, 10, 8) > 0.3e-3);  // the sky: 1 g/m² was laid
    CHECK(pigment_kg_m2(drawn.sheet(), 1, 25, 34) > 0.2e-3); // the hill: 0.8 g/m²
}
