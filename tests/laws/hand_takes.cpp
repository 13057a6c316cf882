#include "hand/lift_table.h"
#include "support/hand_scene.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tidemark;
using sheet::Surface;

namespace {

constexpr plan::LiftTool tools[] = {plan::LiftTool::thirsty_brush, plan::LiftTool::tissue, plan::LiftTool::sponge,
                                    plan::LiftTool::scrub};

/// A cell's worth of everything everywhere, with film and moisture as given; all of it booked.
scene::HandScene laden(float film_m, double front_more_kg_m2) {
    scene::HandScene h(scene::small_sheet({{"PB29", 3}, {"PB15:3", 1}}), 1e-3);
    auto& s = h.s;
    double cells = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i, ++cells) {
            s.film_m(i, j) = film_m, s.front_kg_m2(i, j) += front_more_kg_m2;
            h.ledger.laid_kg += (double(film_m) * 1000 + front_more_kg_m2) * 1e-6;
            for (std::size_t k = 0; k < 2; ++k) {
                auto& p = s.pigments[k];
                if (film_m > 0)
                    p.afloat_lower(i, j) = 3e-4f, p.afloat_upper(i, j) = 1e-4f;
                p.loose(i, j) = 1e-3f, p.bound(i, j) = 1e-3f, p.inside(i, j) = 2e-4f;
                h.ledger.pigment_laid_kg[k] += (double(p.afloat_lower(i, j)) + p.afloat_upper(i, j) + 1e-3f + 1e-3f + 2e-4f) * 1e-6;
            }
            if (film_m > 0) {
                s.gum_lower_kg_m2(i, j) = 2e-4f;
                h.ledger.gum_laid_kg += double(2e-4f) * 1e-6;
            }
        }
    return h;
}

} // namespace

TEST_CASE("every tool takes most when wet, then moist, then damp, least when dry", "[law][hand]") {
    for (const auto tool : tools) {
        double before_kg = 1;
        INFO(plan::word(tool));
        for (const auto& [film_m, front] : {std::pair{100e-6f, 0.1}, {10e-6f, 0.1}, {0.0f, 0.05}, {0.0f, 0.0}}) {
            scene::HandScene h = laden(film_m, front);
            h.play(plan::Lift{.tool = tool});
            CHECK(h.record.pigment_lifted_kg[0] < before_kg);
            CHECK(h.closure() < 1e-6);
            before_kg = h.record.pigment_lifted_kg[0];
        }
    }
}

TEST_CASE("a lift leaves a thin film and books what it took", "[law][hand]") {
    for (const auto tool : tools) {
        scene::HandScene h = laden(100e-6f, 0.1);
        h.play(plan::Lift{.tool = tool});
        const auto& t = hand::takes(tool);
        const double gone = 1 - t.film_left_m / 100e-6, area_m2 = 0.06 * 0.03;
        CHECK(h.s.film_m(7, 7) == static_cast<float>(t.film_left_m));
        CHECK(h.ledger.lifted_kg == h.record.water_lifted_kg);
        CHECK(h.ledger.lifted_kg == Approx(area_m2 * (0.1 * gone + 0.1 * t.moisture[0])).epsilon(1e-5));
        CHECK(h.ledger.pigment_lifted_kg[0] == Approx(area_m2 * (4e-4 * gone + 1e-3 * t.loose[0])).epsilon(1e-5));
        CHECK(h.ledger.gum_lifted_kg == Approx(area_m2 * 2e-4 * gone).epsilon(1e-5));
        CHECK(h.record.water_kg == 0);
        CHECK((h.wet_cells > 0) == t.stirs);
        CHECK((h.scrubbed > 0) == (tool == plan::LiftTool::scrub));
    }
}

TEST_CASE("tissue and sponge dry the paper more than a brush, the sponge most", "[law][hand]") {
    double before_kg = 0;
    for (const auto tool : {plan::LiftTool::thirsty_brush, plan::LiftTool::tissue, plan::LiftTool::sponge}) {
        scene::HandScene h = laden(0, 0.1);
        h.play(plan::Lift{.tool = tool});
        CHECK(h.record.water_lifted_kg > before_kg);
        before_kg = h.record.water_lifted_kg;
    }
}

TEST_CASE("a softening brush wets a band about the boundary and takes a little along", "[law][hand]") {
    plan::Plan p = scene::small_sheet({{"PB29", 3}});
    const int left = scene::add_band(p, "left", 0, 0.030), top = scene::add_band(p, "right", 0.030, 0.060, 0.010);
    scene::HandScene h(p, 0.5e-3);
    h.play(plan::Wash{.area = left, .mix = 1, .film_m = 100e-6});
    const auto had = h.s.film_m;
    const double floating = h.s.pigments[0].afloat_lower(58, 30);
    h.play(plan::Soften{.area = left, .along = {}, .width_m = 6e-3, .water_kg_m2 = 0.04, .speed_m_s = 0.03});
    CHECK(h.closure() < 1e-6);
    CHECK(h.work.end_s == Approx(0.0295 / 0.03)); // a line of 30 mm
    CHECK(h.record.water_kg == Approx(1000 * 0.006 * 0.030 * 40e-6));
    CHECK(h.record.pigment_lifted_kg[0] > 0);
    CHECK(h.s.pigments[0].afloat_lower(58, 30) == Approx((1 - hand::soften_takes) * floating));
    CHECK(h.s.film_m(58, 30) == Approx((1 - hand::soften_takes) * (had(58, 30) + 40e-6)));
    CHECK(h.s.film_m(62, 30) > 0);
    CHECK(h.s.film_m(50, 30) == had(50, 30));
    CHECK(h.s.film_m(67, 30) == 0);

    scene::HandScene part(p, 0.5e-3); // only where the other area is near
    part.play(plan::Soften{.area = left, .along = top, .width_m = 4e-3});
    CHECK(part.s.film_m(60, 30) > 0);
    CHECK(part.s.film_m(60, 4) == 0);
    CHECK(part.record.water_kg > 0.4 * 0.004 * 0.030 * 0.04);
}

TEST_CASE("resist goes on where there is no film, and nothing is laid or spent on it", "[law][hand]") {
    plan::Plan p = scene::small_sheet({{"PB29", 3}});
    const int left = scene::add_band(p, "left", 0, 0.030), middle = scene::add_band(p, "middle", 0.020, 0.040);
    scene::HandScene h(p, 1e-3);
    h.play(plan::Wash{.area = left, .mix = 1});
    h.play(plan::Reserve{.area = middle});
    CHECK(h.work.covered == 300);
    CHECK(h.work.too_wet == 300);
    CHECK(h.s.surface(25, 10) == static_cast<std::uint8_t>(Surface::wetted));
    CHECK(h.s.surface(35, 10) == static_cast<std::uint8_t>(Surface::reserved));
    const plan::Act acts[] = {plan::Wet{}, plan::Wash{.mix = 1}, plan::Charge{.mix = 1, .count = 100},
                              plan::Spatter{.mix = 1, .count = 200}, plan::Spray{}, plan::Lift{},
                              plan::Drybrush{.mix = 1, .share = 1}, plan::Body{.mix = 1},
                              plan::Soften{.area = middle, .along = {}, .width_m = 10e-3}};
    for (const plan::Act& act : acts) {
        INFO(plan::act_word(act));
        h.play(act);
        CHECK(h.closure() < 1e-6);
        for (int j = 0; j < 30; ++j)
            for (int i = 30; i < 40; ++i) {
                REQUIRE(h.s.film_m(i, j) == 0);
                REQUIRE_FALSE(h.record.cells.touched(i, j));
            }
    }
    h.play(plan::Uncover{.area = middle});
    CHECK(h.work.covered == 300);
    CHECK(h.work.too_wet == 60); // beside the wash, on both sides
    CHECK(h.s.surface(35, 10) == static_cast<std::uint8_t>(Surface::dry));
}

TEST_CASE("a dry brush touches the highest part of the relief and nothing else", "[law][hand]") {
    plan::Plan p = scene::small_sheet({{"PB29", 3}}, "rough-300");
    const int band = scene::add_band(p, "band", 0.010, 0.050);
    scene::HandScene h(p, 0.5e-3);
    h.play(plan::Drybrush{.area = band, .mix = 1, .film_m = 40e-6, .share = 0.3});
    float lowest_touched = 1, highest_bare = -1;
    int touched = 0;
    for (int j = 0; j < 60; ++j)
        for (int i = 20; i < 100; ++i)
            if (h.s.film_m(i, j) > 0) {
                ++touched;
                REQUIRE(h.s.film_m(i, j) == 40e-6f);
                lowest_touched = std::min(lowest_touched, h.s.relief_m(i, j));
            } else {
                highest_bare = std::max(highest_bare, h.s.relief_m(i, j));
            }
    CHECK(touched == Approx(0.3 * 4800).margin(2));
    CHECK(lowest_touched > highest_bare);
    CHECK(h.record.water_kg == Approx(touched * 0.25e-6 * 0.04));
    CHECK(h.closure() < 1e-6);
}

TEST_CASE("body colour is laid by weight: pigment, gum and water together", "[law][hand]") {
    scene::HandScene h(scene::small_sheet({{"PW6", 30}}), 1e-3);
    h.play(plan::Body{.mix = 1, .paint_kg_m2 = 0.06});
    const double area_m2 = 0.06 * 0.03;
    CHECK(h.record.pigment_kg[0] == Approx(area_m2 * 0.06 * 0.30).epsilon(1e-5));
    CHECK(h.ledger.gum_laid_kg == Approx(area_m2 * 0.06 * 0.18).epsilon(1e-5));
    CHECK(h.record.water_kg == Approx(area_m2 * 0.06 * 0.52).epsilon(1e-5));
    CHECK(h.closure() < 1e-6);
}
