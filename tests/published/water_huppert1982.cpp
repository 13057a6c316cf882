// Viscous gravity currents on a level plane, started from the similarity solution at t0 and followed for two decades:
//   round, volume V:          r_N = ξ (g V³ t/3ν)^(1/8),  ξ = (2^10/(81 π³))^(1/8) = 0.89391
//   plane, area A, one-sided: x_N = η (g A³ t/3ν)^(1/5),  η = 1.41124;  two-sided 0.93107
//   profile                   h = h_c (1 - (r/r_N)²)^(1/3)
// Huppert (1982) J. Fluid Mech. 121, 43-58.
#include "support/published.h"
#include "support/water_scenes.h"

#include <functional>

using namespace scenes;
using published::Check;

namespace {

constexpr double first_s = 0.2, last_s = 20, step_share = 0.02; // a step is 2 % of the time

/// Where the film falls to half its depth at the origin, along (fx, fy), made into a front by the profile.
double front_m(Scene& s, double x0, double y0, double fx, double fy) {
    const auto depth = [&](double r) {
        const double u = (x0 + r * fx) / s.cell() - 0.5, v = (y0 + r * fy) / s.cell() - 0.5;
        const int i = static_cast<int>(std::floor(u)), j = static_cast<int>(std::floor(v));
        const double a = u - i, b = v - j;
        return (1 - b) * ((1 - a) * s.h(i, j) + a * s.h(i + 1, j)) +
               b * ((1 - a) * s.h(i, j + 1) + a * s.h(i + 1, j + 1));
    };
    const double half = 0.5 * depth(0.5 * s.cell());
    double r = s.cell();
    while (depth(r) > half)
        r += 0.01e-3;
    return r / std::sqrt(1 - 0.125); // (1 - q²)^(1/3) = 1/2
}

struct Spread {
    double front_m, exponent; ///< at last_s; over the last decade
    double mass_error;
};

Spread follow(Scene& s, const std::function<double()>& front) {
    const double before = s.volume();
    double t = first_s, t_decade = 0, decade = 0;
    for (int n = 0; t < last_s; ++n) {
        const double dt = std::min(step_share * t, last_s - t);
        s.step(dt);
        t += dt;
        if (n % 4 == 3)
            s.wake();
        if (decade == 0 && t >= last_s / 10)
            decade = front(), t_decade = t;
    }
    const double at_end = front();
    return {at_end, std::log(at_end / decade) / std::log(t / t_decade), s.volume() / before - 1};
}

double round_front_m(double V, double t) {
    return 0.89391 * std::pow(gravity_m_s2 * V * V * V * t / (3 * nu_water_m2_s), 0.125);
}

struct Round {
    Spread spread;
    double constant_share, roundness; ///< measured ξ over Huppert's; diagonal over axis radius
};

Round spread_round(double cell_m) {
    const double V = 0.5e-6, c = 0.048, R = round_front_m(V, first_s), h_c = 4.0 / 3 * V / (M_PI * R * R);
    Scene s(2 * c, 2 * c, cell_m, bare_film());
    s.lay([&](double x, double y) {
        return h_c * std::cbrt(std::max(0.0, 1 - ((x - c) * (x - c) + (y - c) * (y - c)) / (R * R)));
    });
    const double laid = s.volume(); // of the cells: the front is proportional to V^(3/8)
    const Spread spread = follow(s, [&] { return front_m(s, c, c, 1, 0); });
    const double diagonal = front_m(s, c, c, std::sqrt(0.5), std::sqrt(0.5));
    return {spread, spread.front_m / round_front_m(laid, last_s), diagonal / spread.front_m};
}

/// sides = 1: the heap leans against the sheet's closed edge; 2: it lies in the middle and spreads both ways.
Spread spread_plane(double cell_m, int sides, double& expected_m) {
    const double A = 5e-6 * sides, eta = sides == 1 ? 1.41124 : 0.93107, width = 0.096 * sides, height = 8 * cell_m;
    const auto front = [&](double area, double t) {
        return eta * std::pow(gravity_m_s2 * area * area * area * t / (3 * nu_water_m2_s), 0.2);
    };
    // A = sides h_c x_N ∫(1 - q²)^(1/3) dq, and the integral is √π Γ(4/3) / (2 Γ(11/6))
    const double shape = std::sqrt(M_PI) * std::tgamma(4.0 / 3) / (2 * std::tgamma(11.0 / 6));
    const double X = front(A, first_s), h_c = A / (sides * X * shape), x0 = sides == 1 ? 0 : width / 2;
    Scene s(width, height, cell_m, bare_film());
    s.lay([&](double x, double) { return h_c * std::cbrt(std::max(0.0, 1 - (x - x0) * (x - x0) / (X * X))); });
    expected_m = front(s.volume() / height, last_s);
    return follow(s, [&] { return front_m(s, x0, height / 2, 1, 0); });
}

} // namespace

// Tolerances: the front is found between cells, and a front of infinite slope is smeared over about one cell (0.5 to
// 1.2 % of the radius here); frozen mobility costs about as much as a step's share of the time: 2 % together, and 3 %
// on the coarse grid. The exponent is a ratio of fronts a decade apart, where most of this cancels: ± 0.003.
TEST_CASE("huppert 1982: a round current spreads as 0.894 t^1/8 on two grids", "[published][water]") {
    const Round coarse = spread_round(1e-3), fine = spread_round(0.5e-3);
    INFO("share of the constant " << coarse.constant_share << ", " << fine.constant_share << "; exponents "
                                  << coarse.spread.exponent << ", " << fine.spread.exponent);
    const std::string round = "Huppert 1982, J. Fluid Mech. 121";
    Check{"constant of a round pool that spreads, cells of 1 mm", round}.near(0.89391,
                                                                              0.89391 * coarse.constant_share, 0.027);
    Check{"constant of a round pool that spreads, cells of 0.5 mm", round}.near(0.89391,
                                                                                0.89391 * fine.constant_share, 0.018);
    Check{"exponent of a round pool's radius, cells of 1 mm", round}.near(0.125, coarse.spread.exponent, 0.005);
    Check{"exponent of a round pool's radius, cells of 0.5 mm", round}.near(0.125, fine.spread.exponent, 0.003);
    CHECK(fine.roundness == Approx(1).margin(0.01)); // a square grid must not show in the spread
    CHECK(std::abs(fine.spread.mass_error) < 1e-9);
}

TEST_CASE("huppert 1982: a plane current spreads as 1.411 t^1/5, or 0.931 t^1/5 both ways", "[published][water]") {
    for (int sides : {1, 2})
        for (double cell_m : {1e-3, 0.5e-3}) {
            double expected = 0;
            const Spread spread = spread_plane(cell_m, sides, expected);
            INFO("sides " << sides << ", cells of " << cell_m << " m, front " << spread.front_m / expected);
            const double eta = sides == 1 ? 1.41124 : 0.93107;
            const std::string plane = "Huppert 1982, J. Fluid Mech. 121";
            const std::string ways = sides == 1 ? "one way" : "both ways";
            Check{"constant of a straight pool that spreads " + ways, plane}.relative(
                eta, eta * spread.front_m / expected, 0.02);
            Check{"exponent of a straight pool's front, " + ways, plane}.near(0.2, spread.exponent, 0.004);
            CHECK(std::abs(spread.mass_error) < 1e-9);
        }
}
