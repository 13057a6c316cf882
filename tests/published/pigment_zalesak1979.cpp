// A field carried round: Zalesak (1979), cone of LeVeque (1996). Two halves, two speeds.
#include "support/pigment_scene.h"
#include "support/published.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace tidemark;
using namespace tidemark::pigment_scene;
using published::Check;

namespace {

constexpr int cells = 100;
constexpr float film_m = 100e-6f;
using Shape = float (*)(double, double);

float cone(double x, double y) { return std::max(0.0f, static_cast<float>(1 - std::hypot(x - 50, y - 75) / 15)); }
float slotted(double x, double y) {
    const bool disc = std::hypot(x - 50, y - 75) < 15, slot = std::abs(x - 50) < 2.5 && y < 85;
    return disc && !slot ? 1.0f : 0.0f;
}

struct Turned {
    double peak = 0, least = 1e9, mass = 0, off = 0;
};

Turned compare(const grid::Field<float>& now, const grid::Field<float>& before) {
    Turned t;
    double sum = 0, top = 0;
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            t.peak = std::max<double>(t.peak, now(i, j));
            t.least = std::min<double>(t.least, now(i, j));
            t.off += std::abs(now(i, j) - before(i, j));
            t.mass += now(i, j);
            sum += before(i, j), top = std::max<double>(top, before(i, j));
        }
    t.mass /= sum, t.off /= sum, t.peak /= top;
    return t;
}

/// Both shapes in both halves; each half is looked at after its own turn: [shape][0 lower, 1 upper].
std::array<std::array<Turned, 2>, 2> turn() {
    auto s = flooded(cells, cells, film_m, {grain(1500, 0.1e-6), grain(1500, 0.1e-6)});
    const Shape shapes[] = {cone, slotted};
    for (int k = 0; k < 2; ++k)
        for (int j = 0; j < cells; ++j)
            for (int i = 0; i < cells; ++i)
                s.pigments[k].afloat_lower(i, j) = s.pigments[k].afloat_upper(i, j) = shapes[k](i + 0.5, j + 0.5);
    const auto start = s.pigments;
    // A stream function keeps div q = 0 to rounding: rigid within 48 cells, at rest outside.
    const auto psi = [&](int i, int j) { return 0.5 * std::pow(std::min(48.0, std::hypot(i - 50.0, j - 50.0)), 2); };
    const double scale = film_m * s.geometry.cell_m; // one radian a second
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            s.flux_x_m2_s(i, j) = static_cast<float>(scale * (psi(i + 1, j) - psi(i + 1, j + 1)));
            s.flux_y_m2_s(i, j) = static_cast<float>(scale * (psi(i + 1, j + 1) - psi(i, j + 1)));
        }
    const int upper_steps = 1000, lower_steps = 2200; // 1.375 / 0.625
    pigment::PigmentWorkspace w;
    std::array<std::array<Turned, 2>, 2> result;
    for (int n = 1; n <= lower_steps; ++n) {
        pigment::advect(s, w, 2 * std::numbers::pi / 0.625 / lower_steps);
        for (int k = 0; k < 2; ++k) {
            if (n == lower_steps)
                result[k][0] = compare(s.pigments[k].afloat_lower, start[k].afloat_lower);
            if (n == upper_steps)
                result[k][1] = compare(s.pigments[k].afloat_upper, start[k].afloat_upper);
        }
    }
    return result;
}

} // namespace

TEST_CASE("zalesak 1979: carried once round, a cone and a slotted disc keep mass, bounds and shape",
          "[published][pigment]") {
    const auto turned = turn();
    for (int half = 0; half < 2; ++half) {
        const Turned &c = turned[0][half], &d = turned[1][half];
        CAPTURE(half, c.peak, c.off, c.mass, d.peak, d.off, d.mass);
        // 0.8 of the cone's height at 100 × 100 cells is what a good second-order scheme keeps; the upper half, which
        // takes the larger steps (0.6 of a cell at the rim), may lose a little more.
        if (half == 0)
            Check{"peak of a cone carried once round", "LeVeque 1996"}.at_least(0.8, c.peak);
        CHECK(c.peak >= 0.75);
        CHECK(c.peak <= 1);
        CHECK(c.least >= 0);
        CHECK(c.off < 0.25);
        // No new extremes: 1e-4 is the rounding of div q over the turn.
        Check{"top of a slotted disc carried round: nothing new", "Zalesak 1979"}.at_most(1 + 1e-4, d.peak);
        CHECK(d.peak > 0.9);
        Check{"least of a slotted disc carried round: nothing below 0", "Zalesak 1979"}.at_least(0, d.least);
        CHECK(d.off < 0.65); // the slot is 5 cells wide, and filled
        // The halves exchange nothing where div q is 0.
        CHECK(c.mass == Approx(1).epsilon(1e-5));
        Check{"mass of a slotted disc carried round, over before", "Zalesak 1979"}.relative(1, d.mass, 1e-5);
    }
}
