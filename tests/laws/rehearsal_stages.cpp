#include <catch2/catch.hpp>
#include <random>

#include "rehearsal/count_stages.h"
#include "sheet/stage.h"
#include "support/rehearsal_scene.h"

using namespace tidemark;

TEST_CASE("every cell is counted once, in its stage, for the sheet and for each area it is in", "[law][rehearsal]") {
    // Wider than what is counted in one go, and no multiple of it.
    auto s = sheet::SheetState::make(0.2, 0.02, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
    const int nx = s.geometry.nx, ny = s.geometry.ny;
    const sheet::StageRule rule = sheet::stage_rule(s);
    std::mt19937 random(3);
    std::vector<grid::Field<std::uint8_t>> areas(2, grid::Field<std::uint8_t>(nx, ny));
    std::vector<rehearsal::StageCount> expected(3);
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            const int kind = j < ny / 2 ? static_cast<int>(random() % 4) : 0; // a whole row in one stage as well
            s.film_m(i, j) = kind == 0 ? 50e-6f : kind == 1 ? 1.2e-6f : 0.0f;
            s.front_kg_m2(i, j) = kind == 3 ? rule.dry_front_kg_m2 : rule.dry_front_kg_m2 * 1.5;
            areas[0](i, j) = i > 5, areas[1](i, j) = random() % 2 == 0;
            const auto stage = static_cast<std::size_t>(sheet::stage_of(rule, s.film_m(i, j), s.front_kg_m2(i, j)));
            for (std::size_t a = 0; a < 2; ++a) expected[a].cells[stage] += areas[a](i, j);
            ++expected[2].cells[stage];
        }
    const auto counted = rehearsal::count_stages(s, {rehearsal::AreaCells(areas[0]), rehearsal::AreaCells(areas[1])});
    REQUIRE(counted.size() == 3);
    for (std::size_t a = 0; a < 3; ++a)
        for (std::size_t k = 0; k < 4; ++k) {
            CHECK(counted[a].cells[k] == expected[a].cells[k]);
            CHECK(expected[a].cells[k] > 0);
        }
}

TEST_CASE("without areas the whole sheet is counted", "[law][rehearsal]") {
    const auto s = sheet::SheetState::make(0.01, 0.01, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
    const auto counted = rehearsal::count_stages(s, {});
    REQUIRE(counted.size() == 1);
    CHECK(counted[0].cells == std::array<long, 4>{0, 0, 0, 400});
}

TEST_CASE("warm air does not make dry paper damp", "[law][rehearsal]") {
    plan::Plan p = scene::small_sheet({{"PY42", 0.5}});
    const int left = scene::add_band(p, "left", 0, 0.030), right = scene::add_band(p, "right", 0.035, 0.060);
    scene::add_step(p, "wash", 0, plan::Wash{.area = left, .mix = 1, .film_m = 60e-6, .pace_m2_s = 10e-4});
    scene::add_step(p, "dryer", 300, plan::Dry{.until = plan::Stage::dry, .warm_air = true});
    const auto run = scene::played(p, 1e-3);
    bool seen = false;
    for (const sheet::StageSample& sample : run.record().stages)
        if (sample.area == right && sample.time_s > 330) {
            seen = true;
            CHECK(sample.share[3] == 1);
        }
    CHECK(seen);
}
