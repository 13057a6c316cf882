#include "support/hand_scene.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>
#include <vector>

using namespace tidemark;

namespace {

plan::Plan sheet_with_band() {
    plan::Plan p = scene::small_sheet({{"PB29", 3}});
    scene::add_band(p, "band", 0.020, 0.040, 0.008);
    return p;
}

double volume_m3(const scene::HandScene& h) {
    double sum = 0;
    for (const auto& t : h.work.touches)
        sum += t.film_m * h.s.geometry.cell_area_m2();
    return sum;
}

/// Distance of a cell's centre from the band, mm.
double beyond_mm(const hand::Touch& t, double cell_mm) {
    const double x = (t.i + 0.5) * cell_mm, y = (t.j + 0.5) * cell_mm;
    return std::hypot(x - std::clamp(x, 20.0, 40.0), y - std::clamp(y, 8.0, 22.0));
}

} // namespace

TEST_CASE("short strokes keep to the area, bring what they should, and lie in all directions", "[law][hand]") {
    scene::HandScene h(sheet_with_band(), 0.5e-3);
    h.begin(plan::Charge{.area = 0, .mix = 1, .count = 40, .drop_m3 = 10e-9, .drop_radius_m = 0.8e-3, .stroke_m = 8e-3});
    CHECK(volume_m3(h) == Approx(40 * 10e-9));
    for (const auto& t : h.work.touches)
        REQUIRE(beyond_mm(t, 0.5) == 0);
    std::map<float, std::vector<hand::Touch>> strokes;
    for (const auto& t : h.work.touches)
        strokes[t.at_s].push_back(t);
    REQUIRE(strokes.size() == 40);
    int wide = 0, tall = 0;
    double longest_mm = 0;
    for (const auto& [at, cells] : strokes) {
        const auto [i0, i1] = std::minmax_element(cells.begin(), cells.end(), [](auto& a, auto& b) { return a.i < b.i; });
        const auto [j0, j1] = std::minmax_element(cells.begin(), cells.end(), [](auto& a, auto& b) { return a.j < b.j; });
        const double dx = 0.5 * (i1->i - i0->i), dy = 0.5 * (j1->j - j0->j);
        (dx > dy ? wide : tall) += 1;
        longest_mm = std::max(longest_mm, std::hypot(dx, dy));
    }
    CHECK(wide > 5);
    CHECK(tall > 5);
    CHECK(longest_mm > 8);
    CHECK(longest_mm < 8 + 2 * 0.8 * std::numbers::sqrt2 + 1);
    h.go(1e9);
    CHECK(h.record.water_kg == Approx(40 * 10e-6));
    CHECK(h.closure() < 1e-6);
}

TEST_CASE("spattered drops are caps of the paper's contact angle, within one mark of the area", "[law][hand]") {
    scene::HandScene h(sheet_with_band(), 0.5e-3);
    const double theta = h.plan.paper.theta_advancing_rad, R = 1.5e-3;
    const double high = R * (1 - std::cos(theta)) / std::sin(theta);
    const double cap_m3 = std::numbers::pi * high * (3 * R * R + high * high) / 6;
    h.begin(plan::Spatter{.area = 0, .count = 30, .smallest_m = 2 * R, .largest_m = 2 * R});
    CHECK(volume_m3(h) == Approx(30 * cap_m3));
    double furthest_mm = 0;
    for (const auto& t : h.work.touches)
        furthest_mm = std::max(furthest_mm, beyond_mm(t, 0.5));
    CHECK(furthest_mm > 1.5);         // some fall beside it
    CHECK(furthest_mm < 3 + 1.5 + 1); // by a mark, plus half of one
    h.go(1e9);
    CHECK(h.closure() < 1e-6);

    // Sizes even in their logarithm: half of them below the geometric mean.
    h.begin(plan::Spatter{.area = 0, .mix = 1, .count = 400, .smallest_m = 0.4e-3, .largest_m = 3.6e-3});
    std::map<float, double> volume;
    for (const auto& t : h.work.touches)
        volume[t.at_s] += t.film_m * h.s.geometry.cell_area_m2();
    const double middle = cap_m3 * std::pow(0.6 / 1.5, 3);
    const auto small = std::count_if(volume.begin(), volume.end(), [=](const auto& v) { return v.second < middle; });
    CHECK(std::abs(small - 200) < 3 * 10); // three standard deviations
    h.go(1e9);
    CHECK(h.record.pigment_kg[0] == Approx(0.03 * h.record.water_kg));
}

TEST_CASE("spray arrives in droplets at random, as much as the plan says", "[law][hand]") {
    scene::HandScene h(sheet_with_band(), 0.5e-3);
    const plan::Spray spray{.area = 0, .water_kg_m2 = 0.05, .droplet_m = 0.3e-3, .seconds = 4};
    h.begin(spray);
    const double droplet_m3 = std::numbers::pi / 6 * 27e-12, area_m2 = 20e-3 * 14e-3;
    const double expected = 0.05e-3 * area_m2 / droplet_m3, arrived = volume_m3(h) / droplet_m3;
    CHECK(std::abs(arrived - expected) < 4 * std::sqrt(expected));
    // Poisson: the variance of a cell's count is its mean.
    grid::Field<double> count(h.s.geometry.nx, h.s.geometry.ny);
    for (const auto& t : h.work.touches) {
        REQUIRE(beyond_mm(t, 0.5) == 0);
        count(t.i, t.j) += t.film_m * h.s.geometry.cell_area_m2() / droplet_m3;
    }
    double sum = 0, sum2 = 0;
    for (int j = 16; j < 44; ++j)
        for (int i = 40; i < 80; ++i)
            sum += count(i, j), sum2 += count(i, j) * count(i, j);
    const double mean = sum / 1120, variance = sum2 / 1120 - mean * mean;
    CHECK(variance == Approx(mean).epsilon(0.2));
    CHECK(h.work.touches.back().at_s > 3);
    CHECK(h.work.end_s == 4);
    h.go(1e9);
    CHECK(h.closure() < 1e-6);
}

TEST_CASE("chance comes from the plan's seed", "[law][hand]") {
    plan::Plan p = sheet_with_band();
    const auto first_touch = [&](std::uint64_t seed) {
        p.seed = seed;
        scene::HandScene h(p, 0.5e-3);
        h.begin(plan::Spatter{.area = 0, .count = 5});
        return std::tuple(h.work.touches[0].i, h.work.touches[0].j, h.work.touches[0].film_m);
    };
    CHECK(first_touch(1) == first_touch(1));
    CHECK(first_touch(1) != first_touch(2));
}
