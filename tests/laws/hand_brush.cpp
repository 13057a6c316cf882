#include "support/hand_scene.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tidemark;

namespace {

plan::Plan wide_sheet() {
    plan::Plan p = scene::small_sheet({{"PB29", 3}});
    p.width_m = 0.30, p.height_m = 0.20;
    return p;
}
materials::Brush brush(const char* id) { return *materials::Presets::read(TIDEMARK_PRESETS_DIR).brush(id); }

struct Painted {
    std::vector<double> loads_m3; ///< laid before each pause, the last one as well
    double first_cm2 = 0, end_s = 0; ///< painted with the first charge; the hand is free
    int loads = 0;
};

Painted painted(const plan::Wash& wash) {
    scene::HandScene h(wide_sheet(), 1e-3);
    h.begin(wash);
    Painted out;
    double before_kg = 0, pauses_s = 0;
    const auto note = [&] {
        if (out.loads_m3.empty())
            for (int j = 0; j < h.s.geometry.ny; ++j)
                for (int i = 0; i < h.s.geometry.nx; ++i)
                    out.first_cm2 += h.record.cells.touched(i, j) * 0.01;
        out.loads_m3.push_back((h.record.water_kg - before_kg) / 1000);
        before_kg = h.record.water_kg, pauses_s = h.work.paused_s;
    };
    for (double t = 0; h.work.next < h.work.touches.size(); t += 0.05) {
        h.go(t);
        if (h.work.paused_s > pauses_s)
            note();
    }
    note();
    CHECK(h.closure() < 1e-6);
    out.end_s = h.work.free_s(), out.loads = h.record.brush_loads;
    return out;
}

} // namespace

TEST_CASE("what a brush lays between two refills is what it releases, by the ledger", "[law][hand]") {
    const plan::Wash wash{.mix = 1, .film_m = 80e-6, .brush = brush("round-8"), .refill_s = 5};
    const Painted p = painted(wash);
    const double cell_m3 = 2.5 * 80e-6 * 1e-6; // of the deepest valleys
    REQUIRE(p.loads == static_cast<int>(p.loads_m3.size()));
    REQUIRE(p.loads > 12);
    for (std::size_t k = 0; k + 1 < p.loads_m3.size(); ++k)
        CHECK(std::abs(p.loads_m3[k] - wash.brush->release_m3) < 2 * cell_m3);
    CHECK(p.end_s == Approx(0.06 / 6e-4 + 5.0 * (p.loads - 1)));
}

// Oakley 2015 weighed 119-124 cm² (synthetic) and 212-356 cm² (natural hair) of wash for one charge of a round of size 12.
TEST_CASE("a charge of a round of size 12 covers 120 to 360 cm2", "[published][hand]") {
    for (double film_m : {40e-6, 60e-6, 80e-6}) {
        const Painted p = painted({.mix = 1, .film_m = film_m, .brush = brush("round-12")});
        INFO(film_m * 1e6 << " um: " << p.first_cm2 << " cm2");
        CHECK(p.first_cm2 > 120);
        CHECK(p.first_cm2 < 360);
        const double even_cm2 = 1e4 * brush("round-12").release_m3 / film_m; // the relief makes a thin film uneven
        CHECK(p.first_cm2 == Approx(even_cm2).epsilon(0.1));
    }
}

TEST_CASE("a brush without a load never pauses", "[law][hand]") {
    const Painted p = painted({.mix = 1, .film_m = 80e-6});
    CHECK(p.loads == 0);
    CHECK(p.end_s == Approx(0.06 / 6e-4));
}

TEST_CASE("a picked-up bead leaves the film that was laid, near the last edge alone", "[law][hand]") {
    for (const auto travel : {plan::Travel::rows, plan::Travel::downhill, plan::Travel::from_point}) {
        scene::HandScene h(wide_sheet(), 1e-3);
        const plan::Wash wash{.mix = 1, .film_m = 100e-6, .travel = travel, .bead = plan::Bead::picked_up};
        h.begin(wash);
        h.go(h.work.end_s - 1e-3);
        for (int j = 0; j < h.s.geometry.ny; ++j)
            for (int i = 0; i < h.s.geometry.nx; ++i)
                h.s.film_m(i, j) += 50e-6f; // what has run there
        h.ledger.laid_kg += 50e-6 * 1000 * 0.06;
        const auto stood = h.s.film_m;
        h.go(1e9);
        int lowered = 0;
        for (int j = 0; j < h.s.geometry.ny; ++j)
            for (int i = 0; i < h.s.geometry.nx; ++i)
                if (h.s.film_m(i, j) < stood(i, j)) {
                    ++lowered;
                    REQUIRE(h.s.film_m(i, j) == 100e-6f);
                }
        INFO("travel " << static_cast<int>(travel) << ": " << lowered << " cells of 1 mm");
        // 10 mm of an edge of 300 mm, or of a brush's 12 mm; peaks that stand out have little on them.
        const double strip = travel == plan::Travel::from_point ? 120 : 3000;
        CHECK(lowered > 0.85 * strip);
        CHECK(lowered < 1.02 * strip);
        CHECK(h.record.water_lifted_kg > 0);
        CHECK(h.record.pigment_lifted_kg[0] > 0);
        CHECK(h.closure() < 1e-6);
    }
}
