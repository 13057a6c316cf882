#include "colour/lab.h"
#include "judge/values.h"
#include "support/judge_scene.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>

using namespace judge_scene;

namespace {

/// Three upright stripes, dark, middle and light, four pixels to a cell.
plan::Reference stripes(const Scene& s) {
    plan::Reference r;
    r.groups = 3;
    r.picture.width = 2 * s.geometry.nx, r.picture.height = 2 * s.geometry.ny;
    for (int y = 0; y < r.picture.height; ++y)
        for (int x = 0; x < r.picture.width; ++x)
            for (int c = 0; c < 3; ++c)
                r.picture.rgb.push_back(std::array<std::uint8_t, 3>{50, 130, 230}[3 * x / r.picture.width]);
    return r;
}
double lightness(int stripe) {
    const std::uint8_t v = std::array<std::uint8_t, 3>{50, 130, 230}[stripe];
    return colour::lstar_from_srgb({v, v, v});
}

} // namespace

TEST_CASE("a sheet that reads as its reference agrees in full", "[law][judge]") {
    Scene s = make_scene(60, 30);
    s.plan.reference = stripes(s);
    add_area(s, "left", [](double x, double) { return x < 20; });
    paint(s, [](double x, double) { return lightness(static_cast<int>(x / 20)); });
    const auto v = judge::judge_values(s.plan, s.lstar, s.geometry);
    REQUIRE(v.groups.size() == 3);
    CHECK(v.right_share == Approx(1));
    CHECK(v.kappa == Approx(1));
    CHECK(v.weighted_kappa == Approx(1));
    CHECK(v.groups[0].reference_share == Approx(1.0 / 3));
    CHECK(v.groups[0].sheet_L == Approx(lightness(0)).margin(1e-3));
    REQUIRE(v.areas.size() == 2);
    CHECK(v.areas[0].area == "left");
    CHECK(v.areas[0].share == Approx(1.0 / 3));
    CHECK(v.areas[0].sheet_L == Approx(lightness(0)).margin(1e-3));
    CHECK(v.areas[0].reference_L == Approx(lightness(0)).margin(1e-3));
    CHECK(v.areas[1].area == "whole sheet");
}

TEST_CASE("the reference's thresholds are applied to the sheet", "[law][judge]") {
    Scene s = make_scene(60, 30);
    s.plan.reference = stripes(s);
    paint(s,
          [](double x, double) { return lightness(x < 20 ? 0 : 1) + 4.0; }); // the light stripe came out as a midtone
    const auto v = judge::judge_values(s.plan, s.lstar, s.geometry);
    CHECK(v.right_share == Approx(2.0 / 3));
    CHECK(v.groups[2].sheet_share == 0);
    CHECK(v.groups[1].sheet_share == Approx(2.0 / 3));
    CHECK(std::isnan(v.groups[2].sheet_L));
    CHECK(v.confusion[2][1] == v.confusion[1][1]);
    CHECK(v.kappa == Approx(0.5));                    // 1 - (1/3) / (2/3)
    CHECK(v.weighted_kappa == Approx(1 - 3.0 / 7.0)); // 1 - (1/3) / (7/9)
}

TEST_CASE("without a reference the areas' own values are still told", "[law][judge]") {
    Scene s = make_scene(20, 20);
    add_area(s, "left", [](double x, double) { return x < 10; });
    paint(s, [](double x, double) { return x < 10 ? 30 : 90; });
    const auto v = judge::judge_values(s.plan, s.lstar, s.geometry);
    CHECK_FALSE(v.has_reference);
    CHECK(v.groups.empty());
    CHECK(std::isnan(v.kappa));
    REQUIRE(v.areas.size() == 2);
    CHECK(v.areas[0].sheet_L == Approx(30));
    CHECK(v.areas[1].sheet_L == Approx(60));
    CHECK(std::isnan(v.areas[0].reference_L));
}
