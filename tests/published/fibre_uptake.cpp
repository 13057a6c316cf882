/// Uptake through the front: the root law of Philip (1957), the Cobb value of ISO 535, exchange between the halves,
/// moisture at rest.
#include "fibre/advance.h"
#include "fibre/through.h"
#include "fibre/uptake.h"
#include "grid/units.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace tidemark;
using published::Check;
using sheet::SheetState;

namespace {

SheetState flooded(double film_m, materials::Paper paper = {}) {
    auto s = SheetState::make(0.008, 0.006, 1e-3, paper, {}, sheet::BoardKind::sealed, {}, 1);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.film_m(i, j) = static_cast<float>(film_m);
    s.wake();
    return s;
}

/// Water drawn, kg/m², after t_s in steps of dt_s.
double drunk(SheetState& s, double t_s, double dt_s) {
    fibre::FibreWorkspace work;
    double kg = 0;
    for (int n = 0; n < std::lround(t_s / dt_s); ++n)
        kg += fibre::advance(s, work, dt_s).film_to_front_kg;
    return kg / (s.geometry.nx * s.geometry.ny * s.geometry.cell_area_m2());
}

} // namespace

TEST_CASE("uptake goes as the root of time with Philip's sorptivity", "[published][fibre]") {
    const double S = materials::Paper{}.sorptivity_front_m_s05;
    std::vector<double> taken;
    for (const double t : {10.0, 40.0, 160.0, 640.0}) {
        auto s = flooded(1e-3);
        taken.push_back(drunk(s, t, t / 20));
        // Exact in the law, whatever passes to the back; 1e-5: the film is a float with a low part.
        Check{"uptake of paper under water, 10 to 640 s", "Philip 1957: S √t", "g/m²"}.relative(
            1e3 * grid::water_kg_m3 * S * std::sqrt(t), 1e3 * taken.back(), 1e-5);
    }
    Check{"exponent of uptake over time", "Philip 1957"}.near(0.5, std::log(taken[3] / taken[0]) / std::log(64.0),
                                                              0.001);
}

TEST_CASE("one long step drinks as much as many short ones", "[published][fibre]") {
    auto one = flooded(1e-3), many = flooded(1e-3);
    CHECK(drunk(one, 60, 60) == Approx(drunk(many, 60, 0.05)).epsilon(1e-4)); // the exchange splits between, a little
}

TEST_CASE("the Cobb value is the sorptivity times the root of a minute", "[published][fibre]") {
    // ISO 535 (TAPPI T 441): g/m² through one face in 60 s under deep water. Table: S = Cobb60/sqrt(60), in um.
    const double table[][2] = {{25, 3.23329}, {30, 3.87995}, {50, 6.46659}, {80, 10.3465}, {120, 15.5198}};
    for (const auto& [cobb, S_um] : table) {
        materials::Paper paper;
        paper.sorptivity_front_m_s05 = S_um * 1e-6;
        auto s = flooded(5e-3, paper);
        // 0.5 %: the table counts at 998.2 kg/m³, the sheet at 1000
        Check{"Cobb value: uptake in 60 s, papers of 25 to 120 g/m²", "ISO 535, Philip 1957", "g/m²"}.relative(
            cobb, grid::g_m2_from_kg_m2(drunk(s, 60, 0.5)), 0.005);
    }
}

TEST_CASE("uptake ends at the film's end and at the half sheet's capacity", "[published][fibre]") {
    auto little = flooded(20e-6);
    CHECK(drunk(little, 600, 5) == Approx(0.020).epsilon(1e-6));
    CHECK(little.film_m(3, 3) == 0);
    CHECK(little.film_low_m(3, 3) == 0);
    CHECK(little.drawn_m(3, 3) == 0); // nothing was drawn in the last step
    materials::Paper paper;
    paper.sorptivity_front_m_s05 = 1e-4;
    auto deep = flooded(5e-3, paper);
    const double rest = deep.front_kg_m2(0, 0);
    CHECK(drunk(deep, 3600, 10) < paper.capacity_kg_m2 - 2 * rest + 1e-9);
    CHECK(deep.front_kg_m2(3, 3) <= sheet::half_capacity_kg_m2(paper) * (1 + 1e-12));
    CHECK(deep.film_m(3, 3) > 0);
    Check{"water that a flooded half sheet ends with, over its capacity", "mass balance"}.relative(
        1, deep.front_kg_m2(3, 3) / sheet::half_capacity_kg_m2(paper), 1e-3); // it still feeds the back
}

TEST_CASE("water from behind does not slow the front at first, water that passed through does",
          "[published][fibre]") {
    auto dry = flooded(1e-3), backed = flooded(1e-3);
    for (int j = 0; j < backed.geometry.ny; ++j)
        for (int i = 0; i < backed.geometry.nx; ++i)
            backed.back_kg_m2(i, j) = 0.2;
    const double start_dry = drunk(dry, 0.1, 0.1), start_backed = drunk(backed, 0.1, 0.1);
    CHECK(start_backed == Approx(start_dry).epsilon(1e-6));
    CHECK(drunk(backed, 300, 1) < 0.75 * drunk(dry, 300, 1));
}

TEST_CASE("the halves even out exponentially at 8 D/c²", "[published][fibre]") {
    // Two slabs c/2 thick, middles c/2 apart. Crank (1975): the exact slab's slowest even-out goes at pi² D/c², a
    // quarter faster than two lumps; that is what two lumps are worth.
    materials::Paper paper;
    const double rate = 8 * paper.through_diffusivity_m2_s / (paper.caliper_m * paper.caliper_m);
    CHECK(fibre::exchange_rate_1_s(paper) == Approx(rate).epsilon(1e-12));
    Check{"rate of the two halves over the slowest of a slab, 8/π²", "Crank 1975"}.relative(
        0.8106,
        fibre::exchange_rate_1_s(paper) /
            (9.8696 * paper.through_diffusivity_m2_s / (paper.caliper_m * paper.caliper_m)),
        1e-3);
    auto s = flooded(0, paper);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.front_kg_m2(i, j) = 0.12, s.back_kg_m2(i, j) = 0.02;
    s.wake();
    fibre::FibreWorkspace work;
    for (const double dt : {1.0, 60.0, 600.0}) {
        const double before = s.front_kg_m2(2, 2) - s.back_kg_m2(2, 2);
        fibre::advance(s, work, dt);
        CHECK(s.front_kg_m2(2, 2) - s.back_kg_m2(2, 2) == Approx(before * std::exp(-rate * dt)).epsilon(1e-9));
        CHECK(s.front_kg_m2(2, 2) + s.back_kg_m2(2, 2) == Approx(0.14).epsilon(1e-12));
    }
}

// A slab of thickness c that gives J per area from one face, the other sealed, keeps the profile J (x - x²/2c)/D once
// it has settled: the means of its halves differ by J c/4D in density, J c²/8D in water by area. Crank (1975), ch. 4.
TEST_CASE("a sheet that dries from its face keeps its back wetter by the slab's difference", "[published][fibre]") {
    auto s = flooded(0);
    const double c = s.paper.caliper_m, D = s.paper.through_diffusivity_m2_s, J = 60e-3 / 3600; // 60 g/m²h
    const auto settle = [&](double from_front, double from_back) {
        for (int j = 0; j < s.geometry.ny; ++j)
            for (int i = 0; i < s.geometry.nx; ++i)
                s.front_kg_m2(i, j) = s.back_kg_m2(i, j) = 0.2;
        s.wake();
        fibre::FibreWorkspace work;
        const double dt = 0.02 / fibre::exchange_rate_1_s(s.paper);
        for (int n = 0; n < 500; ++n) { // ten times the halves' own time
            for (int j = 0; j < s.geometry.ny; ++j)
                for (int i = 0; i < s.geometry.nx; ++i)
                    s.front_kg_m2(i, j) -= from_front * dt, s.back_kg_m2(i, j) -= from_back * dt;
            fibre::advance(s, work, dt);
        }
        return 1e3 * (s.back_kg_m2(3, 3) - s.front_kg_m2(3, 3));
    };
    // 2 %: taken before the halves are evened out, a step of a fiftieth of their time.
    Check{"back half wetter than the front, dried from one face", "Crank 1975, slab with a flux", "g/m²"}.relative(
        1e3 * J * c * c / (8 * D), settle(J, 0), 0.02);
    Check{"back half wetter than the front, dried from both faces", "Crank 1975, slab with a flux", "g/m²"}.near(
        0, settle(J / 2, J / 2), 1e-6);
}

TEST_CASE("paper at 50 % humidity holds 5.5 to 8 % of water, by the GAB isotherm", "[published][fibre]") {
    // van den Berg & Bruin (1981); range of chemical-pulp and cotton papers at 20-25 °C, ISO 187 room.
    const materials::Paper p;
    const double m = 2 * sheet::half_equilibrium_kg_m2(p, 0.5) / p.basis_kg_m2;
    Check{"moisture of paper at 50 % humidity", "pulp and cotton papers, ISO 187 room", "%"}.between(5.5, 8, 100 * m);
    // m0 0.040, C 12, K 0.82, computed separately
    Check{"moisture of paper at 50 % humidity, by its isotherm", "van den Berg & Bruin 1981 (GAB)", "%"}.near(
        6.05, 100 * m, 0.005);
    double before = -1;
    for (int n = 0; n <= 20; ++n) {
        const double a = n / 20.0, w = sheet::half_equilibrium_kg_m2(p, a);
        CHECK(w > before);
        CHECK(sheet::activity_of_half(p, w) == Approx(a).margin(1e-9));
        before = w;
    }
}

TEST_CASE("a back half beyond its capacity runs off, and the ledger hears of it", "[published][fibre]") {
    auto s = flooded(0);
    const double full = sheet::half_capacity_kg_m2(s.paper);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.front_kg_m2(i, j) = full, s.back_kg_m2(i, j) = full + 0.03;
    s.wake();
    fibre::FibreWorkspace work;
    const auto moved = fibre::advance(s, work, 1e-3);
    CHECK(s.back_kg_m2(1, 1) == Approx(full).epsilon(1e-9));
    CHECK(moved.run_off_kg == Approx(0.03 * 0.008 * 0.006).epsilon(1e-3));
}
