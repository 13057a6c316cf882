/// How a sheet dries: at a constant rate while water is free, then along its sorption isotherm (GAB, van den Berg &
/// Bruin 1981) to the room's moisture.
#include "air/evaporate.h"
#include "grid/units.h"
#include "support/published.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using published::Check;
using sheet::BoardKind;
using sheet::SheetState;

namespace {

constexpr double long_s = 48 * 3600; // no sheet here takes as long

SheetState small_sheet(BoardKind board = BoardKind::sealed) {
    return SheetState::make(0.020, 0.012, 1e-3, {}, {}, board, {}, 1);
}

void fill(SheetState& s, double film_m, double front_kg_m2, double back_kg_m2) {
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i) {
            s.film_m(i, j) = static_cast<float>(film_m);
            s.front_kg_m2(i, j) = front_kg_m2, s.back_kg_m2(i, j) = back_kg_m2;
        }
    s.wake();
}

double area_m2(const SheetState& s) { return s.geometry.nx * s.geometry.ny * s.geometry.cell_area_m2(); }

/// Drying of one half from moisture w to `until`, by small steps and the plate's own heat balance at each activity.
double slow_drying_s(const materials::Paper& p, const materials::Room& r, double w, double until) {
    double t = 0;
    while (w > until) {
        air::PlateSurface surface;
        surface.activity = sheet::activity_of_half(p, w);
        const double step = 2e-3 * (w - sheet::half_equilibrium_kg_m2(p, r.humidity));
        const double rate = air::plate_evaporation(r, 0.3, surface).rate_kg_m2_s;
        REQUIRE(rate > 0);
        t += step / rate;
        w -= step;
    }
    return t;
}

} // namespace

TEST_CASE("a film dries at the plate's constant rate: 100 um in some two hours in a studio", "[published][air]") {
    auto s = small_sheet();
    const double w = s.front_kg_m2(0, 0);
    fill(s, 100e-6, w, w);
    air::AirWorkspace work;
    const double E = air::plate_evaporation(s.room, 0.3).rate_kg_m2_s;
    double t = 0, gone = 0;
    while (s.film_m(5, 5) > 50e-6 && t < long_s)
        gone += air::advance(s, work, 10).evaporated_kg, t += 10;
    CHECK(gone / area_m2(s) == Approx(E * t).epsilon(1e-4)); // float rate
    while (s.film_m(5, 5) > 0 && t < long_s)
        air::advance(s, work, 10), t += 10;
    CHECK(t == Approx(0.1 / E).epsilon(0.01));
    // Computed separately for this room, with Buck's saturation pressure.
    Check{"time in which 0.1 mm of water dries, studio of 20 °C, 50 %, 0.15 m/s", "plate as below, Buck 1981", "min"}
        .relative(125, t / 60, 0.03);
}

TEST_CASE("a damp sheet dries by its isotherm to the room's moisture and stops there", "[published][air]") {
    auto s = small_sheet();
    const double rest = sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity);
    const double start = 0.05, until = rest + 0.02 * 0.5 * s.paper.basis_kg_m2;
    fill(s, 0, start, rest);
    air::AirWorkspace work;
    double t = 0;
    while (s.front_kg_m2(5, 5) > until && t < long_s)
        air::advance(s, work, 5), t += 5;
    // 1 %: the integration by hand steps 0.2 %, the sheet reads a table of 256 and ends within 5 s
    Check{"time in which a damp sheet dries along its isotherm", "van den Berg & Bruin 1981 (GAB)", "min"}.relative(
        slow_drying_s(s.paper, s.room, start, until) / 60, t / 60, 0.01);
    double before = s.front_kg_m2(5, 5);
    for (int n = 0; n < 3000; ++n) {
        air::advance(s, work, 60);
        CHECK_FALSE(s.front_kg_m2(5, 5) > before);
        before = s.front_kg_m2(5, 5);
    }
    // GAB at 50 %: m0 0.040, C 12, K 0.82 give 6.05 %.
    Check{"moisture at which a sheet stops drying, 50 % humidity", "van den Berg & Bruin 1981 (GAB)", "%"}.near(
        6.05, 100 * before / (0.5 * s.paper.basis_kg_m2), 0.01);
    CHECK(before == Approx(rest).epsilon(1e-4));
    CHECK(before >= rest * (1 - 1e-7));
}

TEST_CASE("the falling rate is nearly (a - RH)/(1 - RH), 0 at the room's humidity and E_wet at 1",
          "[published][air]") {
    const materials::Paper paper;
    const materials::Room room;
    const auto c = air::make_drying_curve(paper, room, 0.3, {});
    CHECK(air::drying_rate_kg_m2_s(c, c.equilibrium_kg_m2) == 0);
    CHECK(air::drying_rate_kg_m2_s(c, c.saturated_kg_m2) == Approx(c.wet_kg_m2_s));
    for (const double a : {0.6, 0.7, 0.8, 0.9}) {
        CAPTURE(a);
        air::PlateSurface surface;
        surface.activity = a;
        const double E = air::drying_rate_kg_m2_s(c, sheet::half_equilibrium_kg_m2(paper, a));
        Check{"drying of damp paper at activities of 0.6 to 0.9", "plate and isotherm of van den Berg & Bruin",
              "g/m²h"}
            .relative(grid::g_m2_h_from_kg_m2_s(air::plate_evaporation(room, 0.3, surface).rate_kg_m2_s),
                      grid::g_m2_h_from_kg_m2_s(E), 0.01); // table of 64 and 256
        const double straight = (a - room.humidity) / (1 - room.humidity) * c.wet_kg_m2_s;
        CHECK(E > 0.9 * straight); // a drier surface is warmer (more) under a stiller layer (less)
        CHECK(E < 1.3 * straight);
    }
}

// GAB with m0 0.040, C 12, K 0.82 holds 21.8 % at activity 1, 19.7 % at 0.97, where the rate is 6 % lower.
TEST_CASE("a soaked sheet dries at a constant rate down to the moisture at saturation", "[published][air]") {
    auto s = small_sheet();
    const double E = air::plate_evaporation(s.room, 0.3).rate_kg_m2_s, half_basis = 0.5 * s.paper.basis_kg_m2;
    fill(s, 0, 0.15, s.front_kg_m2(0, 0));
    air::AirWorkspace work;
    double constant = 0, falls_at = 0;
    for (double t = 0; s.front_kg_m2(5, 5) > 0.15 * half_basis && t < long_s; t += 20) {
        const double before = s.front_kg_m2(5, 5);
        air::advance(s, work, 20);
        const double rate = (before - s.front_kg_m2(5, 5)) / 20;
        if (before > 0.30 * half_basis)
            constant = std::max(constant, std::abs(rate / E - 1));
        if (falls_at == 0 && rate < 0.97 * E)
            falls_at = before / half_basis;
    }
    Check{"rate of a soaked sheet above 30 % of moisture, off the plate's by", "constant-rate period, Lewis 1921"}
        .at_most(1e-3, constant);
    Check{"moisture at which the rate has fallen by 3 %", "van den Berg & Bruin 1981 (GAB)", "%"}.between(
        19.7, 21.8, 100 * falls_at);
}

TEST_CASE("paper drier than the room takes up vapour until it is as moist", "[published][air]") {
    auto s = small_sheet();
    const double rest = s.front_kg_m2(0, 0);
    fill(s, 0, 0.3 * rest, rest);
    air::AirWorkspace work;
    double taken = 0;
    for (int n = 0; n < 2000; ++n)
        taken -= air::advance(s, work, 30).evaporated_kg;
    CHECK(s.front_kg_m2(3, 3) == Approx(rest).epsilon(1e-3));
    CHECK(s.front_kg_m2(3, 3) <= rest);
    CHECK(taken == Approx((s.front_kg_m2(3, 3) - 0.3 * rest) * area_m2(s)));
}

// While water is free, the surface stands at the same temperature whether one face evaporates or two.
TEST_CASE("a sheet with air on both faces dries twice as fast", "[published][air]") {
    double gone[2];
    for (const auto kind : {BoardKind::sealed, BoardKind::open}) {
        auto s = small_sheet(kind);
        fill(s, 0, 0.15, 0.15);
        air::AirWorkspace work;
        gone[kind == BoardKind::open] = 0;
        for (int n = 0; n < 60; ++n)
            gone[kind == BoardKind::open] += air::advance(s, work, 60).evaporated_kg;
    }
    Check{"drying from both faces over one, soaked sheet", "Lewis 1921, Crank 1975", "times"}.relative(
        2, gone[1] / gone[0], 1e-3);
}

TEST_CASE("a sealed back keeps its water, an open one dries, an absorbent board drinks what is free",
          "[published][air]") {
    const double wet = 0.15, hour = 3600;
    double left[3], board[3];
    for (const auto kind : {BoardKind::sealed, BoardKind::absorbent, BoardKind::open}) {
        auto s = small_sheet(kind);
        fill(s, 0, s.front_kg_m2(0, 0), wet);
        air::AirWorkspace work;
        for (int n = 0; n < 360; ++n)
            air::advance(s, work, hour / 360);
        left[static_cast<int>(kind)] = s.back_kg_m2(4, 4), board[static_cast<int>(kind)] = s.board_water_kg;
    }
    const double saturated = sheet::half_equilibrium_kg_m2({}, 1.0);
    CHECK(left[0] == wet);
    CHECK(board[0] == 0);
    CHECK(left[1] == Approx(saturated).epsilon(0.02)); // six time constants
    CHECK(left[1] >= saturated);
    CHECK(board[1] == Approx((wet - left[1]) * 0.020 * 0.012));
    // Open: one face at the rate of a sheet that dries from both, in shade the same as from one.
    CHECK(left[2] == Approx(wet - hour * air::plate_evaporation({}, 0.3).rate_kg_m2_s).epsilon(1e-3));
    CHECK(board[2] == 0);
}
