// Pigment through the rim of a part that is stepped finely.
#include <catch2/catch.hpp>

#include "pigment/rim.h"
#include "support/pigment_scene.h"

using namespace tidemark;
using namespace pigment_scene;

namespace {

constexpr double dt_s = 0.6;
constexpr int substeps = 4;

/// A flooded sheet of 3 × 3 tiles, a part in its middle, and random water through the faces between.
struct Rimmed {
    sheet::SheetState s = flooded(96, 96, 60e-6f, {grain(1500, 1e-6), grain(3500, 4e-6)});
    std::vector<sheet::RimFace> rim;

    explicit Rimmed(double reach) {
        Dice dice{7};
        random_fluxes(s, dice, dt_s, reach);
        grid::TileSet part(s.geometry.px, s.geometry.py);
        part.set(1, 1, true);
        rim = sheet::rim_of(s, part);
    }
    void lay(bool even) {
        Dice dice{11};
        for (std::size_t k = 0; k < 2; ++k)
            for (int j = 0; j < 96; ++j)
                for (int i = 0; i < 96; ++i) {
                    s.pigments[k].afloat_lower(i, j) = even ? 1e-3f : 2e-3f * dice();
                    s.pigments[k].afloat_upper(i, j) = even ? 1e-3f : 2e-3f * dice();
                }
    }
    void pass() {
        pigment::RimCarriage carriage;
        carriage.begin(s, rim, dt_s);
        for (int n = 0; n < substeps; ++n) {
            for (sheet::RimFace& f : rim) {
                f.passing_m2_s = f.given_m2_s;
                f.passed_m += f.passing_m2_s * dt_s / substeps / s.geometry.cell_m;
            }
            carriage.pass(s, rim, dt_s / substeps);
        }
        carriage.end(s, rim);
    }
};

} // namespace

TEST_CASE("what passes a rim keeps every mass, and none falls below nothing", "[law][pigment]") {
    for (double reach : {0.05, 0.2, 0.5}) { // up to 0.65 of an outer cell's water through one face
        Rimmed r(reach);
        r.lay(false);
        const double before[] = {everything(r.s, 0), everything(r.s, 1)};
        const grid::Field<float> was = r.s.pigments[0].afloat_upper;
        r.pass();
        for (std::size_t k = 0; k < 2; ++k) {
            CHECK(everything(r.s, k) == Approx(before[k]).epsilon(1e-6));
            for (int j = 0; j < 96; ++j)
                for (int i = 0; i < 96; ++i) {
                    CHECK_FALSE(r.s.pigments[k].afloat_lower(i, j) < 0);
                    CHECK_FALSE(r.s.pigments[k].afloat_upper(i, j) < 0);
                }
        }
        double moved = 0;
        for (int j = 0; j < 96; ++j)
            for (int i = 0; i < 96; ++i)
                moved += std::abs(r.s.pigments[0].afloat_upper(i, j) - was(i, j));
        CHECK(moved > 0);
    }
}

TEST_CASE("an even wash stays even on both sides of a rim", "[law][pigment]") {
    Rimmed r(0.2);
    r.lay(true);
    r.pass();
    for (int j = 0; j < 96; ++j)
        for (int i = 0; i < 96; ++i)
            for (const auto* half : {&r.s.pigments[0].afloat_lower, &r.s.pigments[0].afloat_upper})
                CHECK((*half)(i, j) == Approx(1e-3 * r.s.film_before_m(i, j) / 60e-6).epsilon(2e-3));
}
