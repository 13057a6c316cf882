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

TEST_CASE("a broken midtone reads from three metres, though close by it is darks and lights", "[law][judge]") {
    Scene s = make_scene(60, 30);
    s.plan.reference = stripes(s);
    const double mid = lightness(1), off = 35; // beyond either threshold
    const auto broken = [&](double cells) {
        paint(s, [&](double x, double y) {
            const bool pale = (static_cast<int>(x / (0.5 * cells)) + static_cast<int>(y / (0.5 * cells))) % 2 != 0;
            const int stripe = static_cast<int>(x / 20);
            return stripe == 1 ? mid + (pale ? off : -off) : lightness(stripe);
        });
        return judge::judge_values(s.plan, s.lstar, s.geometry);
    };
    const auto fine = broken(1); // squares of 0.5 mm
    CHECK(fine.right_share == Approx(2.0 / 3));
    CHECK(fine.weighted_kappa < 0.7);
    CHECK(fine.distant_kappa > 0.95);
    const auto coarse = broken(10); // of 5 mm: the eye tells them apart
    CHECK(coarse.weighted_kappa == Approx(fine.weighted_kappa).margin(0.02));
    CHECK(coarse.distant_kappa < 0.8);
}

TEST_CASE("an eye's blur leaves stripes of a minute of arc a twentieth of their contrast", "[law][judge]") {
    const double stripe_m = 3 * std::tan(3.14159265358979 / (180 * 60)), s_m = judge::eye_blur_m(3);
    CHECK(1e3 * stripe_m == Approx(0.8727).epsilon(1e-3));
    CHECK(1e3 * s_m == Approx(0.680).epsilon(2e-3));
    CHECK(std::exp(-2 * std::pow(3.14159265358979 * s_m / (2 * stripe_m), 2)) == Approx(0.05).epsilon(1e-3));
    CHECK(judge::eye_blur_m(6) == Approx(2 * s_m));
}

TEST_CASE("each mass of the reference has its difference, with its sign", "[law][judge]") {
    Scene s = make_scene(60, 30);
    s.plan.reference = stripes(s);
    constexpr double off[] = {5, -3, 1.5};
    paint(s, [&](double x, double) { const int k = static_cast<int>(x / 20); return lightness(k) + off[k]; });
    const auto v = judge::judge_values(s.plan, s.lstar, s.geometry);
    REQUIRE(v.masses.size() == 3);
    for (const judge::MassValues& m : v.masses) {
        CHECK(m.share == Approx(1.0 / 3).epsilon(0.05)); // the blur may move an outline by a cell
        CHECK(m.sheet_L - m.reference_L == Approx(off[m.group]).margin(0.3));
        CHECK(m.x_mm == Approx(10 + 20 * m.group).margin(1));
    }
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
