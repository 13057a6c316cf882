/// Water creeping along the sheet: nonlinear diffusion with D = D₀ Θ², against the source solution of Barenblatt
/// (1952) and Pattle (1959) and the sorptivity of Philip (1957).
#include "fibre/creep.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidemark;
using published::Check;
using sheet::SheetState;

namespace {

constexpr double pi = std::numbers::pi;
const std::string barenblatt = "Barenblatt 1952, Pattle 1959";

struct Halves {
    SheetState sheet;
    double rest, range; ///< equilibrium; capacity beyond it
    double theta(int i, int j) const { return (sheet.front_kg_m2(i, j) - rest) / range; }
};

Halves make(double width, double height, double cell, double lateral = 3e-8) {
    materials::Paper p;
    p.lateral_diffusivity_m2_s = lateral;
    Halves h{SheetState::make(width, height, cell, p, {}, sheet::BoardKind::sealed, {}, 1), 0, 0};
    h.rest = sheet::half_equilibrium_kg_m2(p, h.sheet.room.humidity);
    h.range = sheet::half_capacity_kg_m2(p) - h.rest;
    h.sheet.damp_tiles.set_all(true), h.sheet.damp_tiles.rebuild();
    return h;
}

/// Θ of u_t = div(u² grad u) from a point source of mass M: t^(-1/3) sqrt(C - r² t^(-1/3)/6), M = 4 pi C^(3/2).
struct Source {
    double D, M;
    double theta(double r, double t_s) const {
        const double t = D * t_s, C = std::pow(M / (4 * pi), 2.0 / 3);
        return std::cbrt(1 / t) * std::sqrt(std::max(C - r * r * std::cbrt(1 / t) / 6, 0.0));
    }
    double front(double t_s) const {
        return std::sqrt(6 * std::pow(M / (4 * pi), 2.0 / 3)) * std::pow(D * t_s, 1.0 / 6);
    }
};

struct Spread {
    double error, front_error, aniso;
};

/// From a spot of 6 mm radius and Θ 0.9 until it is 9 mm: relative L1 error, error of the front at Θ = 0.05.
Spread spread(double cell, double dt) {
    auto h = make(0.032, 0.032, cell);
    const double D = fibre::creep_diffusivity_m2_s(h.sheet.paper);
    // Peak θ₀ and front r₀ at the start fix mass and time: θ₀ = (C/t^(2/3))^½, r₀² = 6 C t^(1/3)  =>  t = r₀²/(6 θ₀²)
    const double r0 = 0.006, peak = 0.9, t0 = r0 * r0 / (6 * peak * peak);
    const Source source{D, 4 * pi * std::pow(peak * peak * std::pow(t0, 2.0 / 3), 1.5)};
    const double start = t0 / D, end = start * std::pow(1.5, 6);
    const auto radius = [&](int i, int j) {
        return cell * std::hypot(i + 0.5 - 0.5 * h.sheet.geometry.nx, j + 0.5 - 0.5 * h.sheet.geometry.ny);
    };
    for (int j = 0; j < h.sheet.geometry.ny; ++j)
        for (int i = 0; i < h.sheet.geometry.nx; ++i)
            h.sheet.front_kg_m2(i, j) += h.range * source.theta(radius(i, j), start);
    fibre::CreepWorkspace work;
    const int steps = static_cast<int>(std::ceil((end - start) / dt));
    for (int n = 0; n < steps; ++n)
        fibre::creep(h.sheet, work, h.sheet.front_kg_m2, (end - start) / steps);
    double apart = 0, total = 0;
    for (int j = 0; j < h.sheet.geometry.ny; ++j)
        for (int i = 0; i < h.sheet.geometry.nx; ++i) {
            const double exact = source.theta(radius(i, j), end);
            apart += std::abs(h.theta(i, j) - exact), total += exact;
        }
    const int c = h.sheet.geometry.nx / 2;
    const auto reach = [&](bool diagonal) { // where Θ falls through 0.05, from the middle outwards
        for (int k = 0; k < c; ++k)
            if (const double a = h.theta(c + k, diagonal ? c + k : c),
                b = h.theta(c + k + 1, diagonal ? c + k + 1 : c);
                b < 0.05) {
                const double place = k + 0.5 + (a - 0.05) / (a - b);
                return cell * (diagonal ? place * std::sqrt(2.0) : std::hypot(place, 0.5));
            }
        return 0.0;
    };
    const double theta_end = source.theta(0, end), level = 0.05 / theta_end;
    const double exact = source.front(end) * std::sqrt(1 - level * level);
    return {apart / total, reach(false) / exact - 1, reach(false) / reach(true) - 1};
}

} // namespace

TEST_CASE("a damp spot spreads as the source solution of Barenblatt 1952", "[published][fibre]") {
    const Spread coarse = spread(1e-3, 3), fine = spread(0.5e-3, 0.7);
    CAPTURE(coarse.error, fine.error, fine.front_error, fine.aniso);
    // 18 cells a radius; the front has infinite slope
    Check{"profile of a damp spot that creeps: mean error", barenblatt}.at_most(0.02, fine.error);
    CHECK(fine.error < 0.7 * coarse.error);
    Check{"radius of a damp spot that creeps, over the exact one", barenblatt}.near(1, 1 + fine.front_error, 0.02);
    CHECK(std::abs(fine.aniso) < 0.01);
}

TEST_CASE("steps far beyond the explicit limit spread alike", "[published][fibre]") {
    const Spread fine = spread(0.5e-3, 0.7), minute = spread(0.5e-3, 60);
    CAPTURE(fine.error, minute.error, minute.front_error);
    Check{"profile of a damp spot, steps of a minute: mean error", barenblatt}.at_most(0.03, minute.error);
    CHECK(std::abs(minute.front_error) < 0.03);
}

TEST_CASE("a wet edge feeds dry paper as an even diffusivity D_lateral would: 2 sqrt(D t/pi)", "[published][fibre]") {
    // Philip (1957): the sorptivity of D₀ Θ² is 0.753052 sqrt(D₀); D₀ is chosen so that it equals (2/sqrt pi)
    // sqrt(D).
    const double D = 3e-8;
    const auto taken = [&](double cell, double t) {
        auto h = make(0.032, 4 * cell, cell, D);
        fibre::CreepWorkspace work;
        const double dt = 0.9 * fibre::creep_step_s(h.sheet);
        double in = 0;
        const int steps = static_cast<int>(std::lround(t / dt));
        for (int n = 0; n < steps; ++n) {
            for (int j = 0; j < h.sheet.geometry.ny; ++j)
                h.sheet.front_kg_m2(0, j) = h.rest + h.range;
            fibre::creep(h.sheet, work, h.sheet.front_kg_m2, t / steps);
        }
        for (int i = 1; i < h.sheet.geometry.nx; ++i)
            in += h.theta(i, 1) * cell;
        return in / (2 * std::sqrt(D * t / pi));
    };
    const double coarse = taken(0.5e-3, 400), fine = taken(0.25e-3, 400);
    CAPTURE(coarse, fine);
    // the wet side stands half a cell back: first order, 0.25 of 3.9 mm
    Check{"water that dry paper takes from a wet edge, over 2 √(D t/π)", "Philip 1957, Crank 1975"}.near(1, fine,
                                                                                                         0.05);
    CHECK(std::abs(fine - 1) < 0.6 * std::abs(coarse - 1));
    Check{"water from a wet edge at 200 s over 400 s, by √t", "Philip 1957"}.near(1, taken(0.25e-3, 200) / fine,
                                                                                  0.02);
}
