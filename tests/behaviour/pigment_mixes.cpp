#include "pigment/advance.h"
#include "pigment/viscosity.h"
#include "support/pigment_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::pigment_scene;

TEST_CASE("the stronger the mix, the thicker the film; clear water and bare paper count as 1",
          "[behaviour][pigment]") {
    // Pigment in the mix, kg/m³, with 0.6 g of gum a gram; mPa s of such washes from memory.
    const double mix[] = {10, 30, 84, 240}, mPa_s[] = {1.1, 1.35, 2.3, 9};
    auto s = flooded(32, 32, 100e-6f, {grain(2340, 2.5e-6)});
    for (int k = 0; k < 4; ++k) {
        s.pigments[0].afloat_lower(k, 0) = s.pigments[0].afloat_upper(k, 0) = static_cast<float>(mix[k] * 50e-6);
        s.gum_lower_kg_m2(k, 0) = s.gum_upper_kg_m2(k, 0) = static_cast<float>(0.6 * mix[k] * 50e-6);
    }
    s.film_m(20, 20) = 0;
    s.pigments[0].afloat_lower(20, 20) = 1;
    grid::Field<float> factor;
    pigment::film_viscosity(s, factor);
    for (int k = 0; k < 4; ++k)
        CHECK(1.0016 * factor(k, 0) == Approx(mPa_s[k]).epsilon(0.10)); // the memory is no better
    CHECK(factor(10, 10) == 1);
    CHECK(factor(20, 20) == 1);
}

TEST_CASE("in two minutes a granulating blue is down, a fine organic one is still afloat", "[behaviour][pigment]") {
    // PB29-like and PB15:3-like grains.
    auto s = flooded(32, 32, 100e-6f, {grain(2340, 2.5e-6, 0.25, 1.8, 0.75), grain(1620, 0.12e-6, 0.9, 1.8, 0.35)});
    for (auto& p : s.pigments)
        p.afloat_lower.fill(0.5e-3f), p.afloat_upper.fill(0.5e-3f);
    pigment::PigmentWorkspace w;
    for (int k = 0; k < 120; ++k)
        pigment::advance(s, w, 1.0);
    const auto afloat = [&](int k) { return s.pigments[k].afloat_lower(8, 8) + s.pigments[k].afloat_upper(8, 8); };
    CHECK(afloat(0) < 0.05e-3);
    CHECK(afloat(1) > 0.8e-3);
}
