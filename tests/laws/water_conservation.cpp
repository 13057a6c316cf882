// What must hold whatever the film does: no water appears or vanishes, no depth is negative, and a step that could
// not be solved has not happened.
#include "support/water_scenes.h"

#include <cstring>
#include <random>

using namespace scenes;

namespace {

/// Puddles and bare paper at random over a rough sheet, some of it painted.
void lay_at_random(Scene& s, double deepest_m, unsigned seed) {
    std::mt19937 random(seed);
    const auto share = [&] { return random() / 4294967296.0; };
    struct Puddle {
        double x, y, r, depth;
    };
    std::vector<Puddle> puddles(12);
    for (Puddle& p : puddles)
        p = {share() * s.nx() * s.cell(), share() * s.ny() * s.cell(), 1e-3 + 5e-3 * share(), deepest_m * share()};
    s.lay([&](double x, double y) {
        double depth = 0;
        for (const Puddle& p : puddles)
            if (std::hypot(x - p.x, y - p.y) < p.r)
                depth = std::max(depth, p.depth);
        return depth;
    });
}

water::FilmParams as_painted() {
    auto p = water::FilmParams::of({});
    p.nu_m2_s = nu_water_m2_s;
    return p;
}

template <class T> bool same(const grid::Field<T>& a, const grid::Field<T>& b) {
    for (int j = 0; j < a.ny(); ++j)
        if (std::memcmp(a.row(j), b.row(j), a.nx() * sizeof(T)) != 0)
            return false;
    return true;
}

} // namespace

// Depths change by differences of the same limited face fluxes; what rounding leaves is carried in the low part,
// whose own rounding is 1e-14 of a depth a step: 1e-9 of the water in 200 steps is generous.
TEST_CASE("no water is made or lost over relief, level or tilted, and no depth turns negative", "[law][water]") {
    for (double degrees : {0.0, 15.0})
        for (bool contact_line : {true, false}) {
            auto p = as_painted();
            p.contact_line = contact_line;
            Scene s(0.032, 0.024, 0.5e-3, p, materials::Paper{}, 3);
            s.tilt(degrees, 0.7);
            lay_at_random(s, 400e-6, 11);
            const double before = s.volume();
            double least = 0, limited = 0, dt = 1e-3;
            for (int accepted = 0; accepted < 200;) {
                const auto r = s.solver.advance(s.sheet, p, dt);
                dt = r.accepted ? std::min(dt * 1.1, 0.01) : dt / 2;
                if (!r.accepted)
                    continue;
                limited += r.limited_share;
                if (++accepted % 3 == 0)
                    s.wake();
                for (int j = 0; j < s.ny(); ++j)
                    for (int i = 0; i < s.nx(); ++i)
                        least = std::min<double>(least, s.h(i, j));
            }
            INFO(degrees << " degrees, contact line " << contact_line);
            CHECK(std::abs(s.volume() / before - 1) < 1e-9);
            CHECK(least == 0);
            if (degrees > 0)
                CHECK(limited > 0); // the scene does drain cells dry
        }
}

TEST_CASE("a step that was not solved leaves the sheet as it was", "[law][water]") {
    auto p = as_painted();
    Scene s(0.032, 0.032, 0.5e-3, p, materials::Paper{}, 3);
    lay_at_random(s, 600e-6, 5);
    s.run(20, 5e-3);
    Scene fresh = s;
    const auto& before = fresh.sheet;
    p.cycles_max = 1, p.tolerance_m = p.refused_m = 1e-9; // one cycle can't do it
    const auto r = s.solver.advance(s.sheet, p, 1.0);
    REQUIRE_FALSE(r.accepted);
    CHECK(r.residual_m > 1e-9);
    CHECK(same(s.sheet.film_m, before.film_m));
    CHECK(same(s.sheet.film_low_m, before.film_low_m));
    CHECK(same(s.sheet.film_before_m, before.film_before_m));
    CHECK(same(s.sheet.flux_x_m2_s, before.flux_x_m2_s));
    CHECK(same(s.sheet.flux_y_m2_s, before.flux_y_m2_s));
    CHECK(same(s.sheet.surface, before.surface));
    // And the solver is none the worse for it: the next step is that of a solver that never tried.
    s.solver.forget(), fresh.solver.forget(); // both begin their cycles from nothing
    const auto retried = s.solver.advance(s.sheet, as_painted(), 5e-3);
    const auto first = fresh.solver.advance(fresh.sheet, as_painted(), 5e-3);
    REQUIRE((retried.accepted && first.accepted));
    CHECK(same(s.sheet.film_m, fresh.sheet.film_m));
}

TEST_CASE("a step with a NaN in it is refused, wherever it stands", "[law][water]") {
    const auto p = as_painted();
    for (const auto& [i, j] : {std::pair{1, 1}, {40, 3}, {63, 63}, {20, 50}}) {
        Scene s(0.032, 0.032, 0.5e-3, p, materials::Paper{}, 3);
        lay_at_random(s, 600e-6, 5);
        s.run(5, 5e-3);
        s.sheet.film_m(i, j) = 100e-6f; // wet, so that it has a say
        s.solver.nu_factor()(i, j) = std::numeric_limits<float>::quiet_NaN();
        const auto before = s.sheet;
        const auto r = s.solver.advance(s.sheet, p, 5e-3);
        INFO("cell " << i << ", " << j << ", residual " << r.residual_m);
        CHECK_FALSE(r.accepted);
        CHECK(same(s.sheet.film_m, before.film_m));
    }
}

TEST_CASE("what sleeps keeps its water and what is reserved gets none", "[law][water]") {
    auto p = as_painted();
    p.contact_line = false;
    Scene s(0.064, 0.032, 0.5e-3, p);
    for (int j = 20; j < 40; ++j)
        for (int i = 30; i < 36; ++i)
            s.sheet.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::reserved);
    s.lay([&](double x, double y) { return std::hypot(x - 0.010, y - 0.015) < 6e-3 ? 300e-6 : 0.0; });
    for (int j = 20; j < 40; ++j)
        for (int i = 30; i < 36; ++i) {
            s.h(i, j) = 0;
            s.sheet.surface(i, j) = static_cast<std::uint8_t>(sheet::Surface::reserved);
        }
    s.wake();
    const double before = s.volume();
    s.run(100, 0.05);
    float reserved = 0, beside = 0;
    for (int j = 20; j < 40; ++j) {
        for (int i = 30; i < 36; ++i)
            reserved = std::max(reserved, s.h(i, j));
        beside = std::max(beside, s.h(29, j));
    }
    CHECK(reserved == 0);
    CHECK(beside > 20e-6f);
    CHECK(std::abs(s.volume() / before - 1) < 1e-9);
}

TEST_CASE("water that was taken off a part that then sleeps does not come back", "[law][water]") {
    Scene s(0.064, 0.032, 0.5e-3, as_painted());
    s.lay(
        [&](double x, double y) { return std::hypot(std::abs(x - 0.032) - 0.024, y - 0.016) < 5e-3 ? 150e-6 : 0.0; });
    s.run(5, 0.01);
    for (int j = 0; j < s.ny(); ++j)
        for (int i = 0; i < s.nx() / 2; ++i)
            s.h(i, j) = s.sheet.film_low_m(i, j) = 0; // blotted
    s.wake();
    REQUIRE_FALSE(s.sheet.film_tiles.awake(0, 0));
    const double before = s.volume();
    for (int n = 0; n < 3; ++n) {
        s.step(0.01);
        CHECK(std::abs(s.volume() / before - 1) < 1e-9);
    }
}

// A step writes the awake cells of one depth field and then swaps it with the other.
TEST_CASE("a tile that falls asleep keeps its depth through the steps of the others", "[law][water]") {
    scenes::Scene s(0.096, 0.032, 0.5e-3, scenes::bare_film());
    s.lay([](double x, double) { return x < 0.012 || x > 0.084 ? 100e-6 : 0.0; });
    s.sheet.wake(), s.solver.wake(s.sheet, s.params);
    REQUIRE(s.solver.advance(s.sheet, s.params, 0.1).accepted);
    for (int j = 0; j < s.ny(); ++j) // the right one dries
        for (int i = s.nx() / 2; i < s.nx(); ++i) s.h(i, j) = s.sheet.film_low_m(i, j) = 0;
    s.sheet.wake(), s.solver.wake(s.sheet, s.params);
    REQUIRE_FALSE(s.sheet.film_tiles.awake(s.sheet.film_tiles.tiles_x() - 1, 0));
    for (int k = 0; k < 3; ++k) {
        REQUIRE(s.solver.advance(s.sheet, s.params, 0.1).accepted);
        CHECK(s.h(s.nx() - 4, s.ny() / 2) == 0);
    }
}

TEST_CASE("a film that is not made of whole tiles is an internal error", "[law][water]") {
    CHECK_THROWS_AS(water::Multigrid(40, 32, 1.0), grid::InternalError);
    CHECK_THROWS_AS(water::Multigrid(32, 0, 1.0), grid::InternalError);
    CHECK_NOTHROW(water::Multigrid(32, 64, 1.0));
}
