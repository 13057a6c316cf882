#include "support/pigment_scene.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <omp.h>

using namespace tidemark;
using namespace tidemark::pigment_scene;

namespace {

constexpr int n = 60; // not a multiple of the tile: the padding is tried too
constexpr double dt_s = 0.1;

/// Random film, pigment and gum; dry patches.
sheet::SheetState scattered(int nx, int ny, std::uint64_t seed) {
    auto s = flooded(nx, ny, 0, {grain(1500, 0.1e-6), grain(4000, 2e-6)});
    Dice dice{seed};
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            const bool dry = (i / 7 + j / 5) % 4 == 0;
            s.film_m(i, j) = dry ? 0.0f : 20e-6f + 200e-6f * dice();
            for (auto* m : {&s.pigments[0].afloat_lower, &s.pigments[0].afloat_upper, &s.pigments[1].afloat_lower,
                            &s.pigments[1].afloat_upper, &s.gum_lower_kg_m2, &s.gum_upper_kg_m2})
                (*m)(i, j) = dry ? 0.0f : 5e-3f * dice();
        }
    return s;
}

bool same(const grid::Field<float>& a, const grid::Field<float>& b) {
    for (int j = 0; j < a.ny(); ++j)
        if (std::memcmp(a.row(j), b.row(j), sizeof(float) * a.nx()) != 0)
            return false;
    return true;
}

} // namespace

TEST_CASE("transport keeps every mass and stays positive through 1000 random steps", "[law][pigment]") {
    auto s = scattered(n, n, 3);
    pigment::PigmentWorkspace w;
    Dice dice{11};
    const auto mass = [&](std::size_t k) {
        return total(s, s.pigments[k].afloat_lower) + total(s, s.pigments[k].afloat_upper);
    };
    const double before[] = {mass(0), mass(1), total(s, s.gum_lower_kg_m2) + total(s, s.gum_upper_kg_m2)};
    double least = 0;
    for (int step = 0; step < 1000; ++step) {
        random_fluxes(s, dice, dt_s, step % 10 == 0 ? 0.24 : 0.01); // strong ones need sub-steps
        pour(s, dt_s);
        const auto moved = pigment::advect(s, w, dt_s);
        REQUIRE(moved.substeps <= 2);
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i)
                least = std::min<double>({least, s.pigments[0].afloat_lower(i, j), s.pigments[0].afloat_upper(i, j)});
    }
    CHECK(least == 0);
    CHECK(mass(0) == Approx(before[0]).epsilon(1e-6));
    CHECK(mass(1) == Approx(before[1]).epsilon(1e-6));
    CHECK(total(s, s.gum_lower_kg_m2) + total(s, s.gum_upper_kg_m2) == Approx(before[2]).epsilon(1e-6));
}

TEST_CASE("transport: a quiet flow into a heavy rim loses nothing to rounding", "[law][pigment]") {
    // A rim cell holds 100 times its neighbour's pigment and gains a hundred-thousandth of that a step.
    auto s = flooded(32, 32, 100e-6f, {grain(1500, 0.1e-6)});
    auto& p = s.pigments[0];
    for (int j = 0; j < 32; ++j)
        for (int i = 0; i < 32; ++i)
            p.afloat_lower(i, j) = p.afloat_upper(i, j) = i == 31 ? 0.137f : 1.37e-3f;
    const double before = everything(s, 0);
    for (int j = 0; j < 32; ++j)
        for (int i = 0; i < 31; ++i)
            s.flux_x_m2_s(i, j) = 1e-5f * 100e-6f * 0.5e-3f / 0.1f;
    pigment::PigmentWorkspace w;
    for (int step = 0; step < 3000; ++step)
        pigment::advect(s, w, dt_s);
    CHECK(p.afloat_upper(30, 5) < 1.369e-3f + 1.37e-3f); // it did flow
    CHECK(everything(s, 0) == Approx(before).epsilon(1e-6));
}

TEST_CASE("transport: an even concentration stays even in both halves", "[law][pigment]") {
    auto s = scattered(n, n, 5);
    const float c_kg_m3 = 30;
    auto& p = s.pigments[0];
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i)
            p.afloat_lower(i, j) = p.afloat_upper(i, j) = c_kg_m3 * 0.5f * s.film_m(i, j);
    pigment::PigmentWorkspace w;
    Dice dice{17};
    double worst = 0;
    for (int step = 0; step < 100; ++step) {
        random_fluxes(s, dice, dt_s, step % 10 == 0 ? 0.24 : 0.05);
        pour(s, dt_s);
        pigment::advect(s, w, dt_s);
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i)
                for (const auto* m : {&p.afloat_lower, &p.afloat_upper})
                    worst = std::max<double>(worst, std::abs((*m)(i, j) - c_kg_m3 * 0.5f * s.film_m(i, j)));
    }
    CHECK(worst < 2e-5 * c_kg_m3 * 0.5 * 200e-6); // rounding of 100 steps, in parts of a full cell
}

TEST_CASE("transport knows no left, no up, no rows before columns", "[law][pigment]") {
    auto s = scattered(n, n, 7);
    Dice dice{23};
    random_fluxes(s, dice, dt_s, 0.24);
    auto mirrored = s, turned = s;
    const auto each = [&](auto&& f) {
        f(s.film_m, mirrored.film_m, turned.film_m);
        for (std::size_t k = 0; k < 2; ++k) {
            f(s.pigments[k].afloat_lower, mirrored.pigments[k].afloat_lower, turned.pigments[k].afloat_lower);
            f(s.pigments[k].afloat_upper, mirrored.pigments[k].afloat_upper, turned.pigments[k].afloat_upper);
        }
    };
    each([](const auto& a, auto& m, auto& t) {
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i)
                m(n - 1 - i, j) = a(i, j), t(j, i) = a(i, j);
    });
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) {
            mirrored.flux_x_m2_s(n - 2 - i, j) = -s.flux_x_m2_s(i, j);
            mirrored.flux_y_m2_s(n - 1 - i, j) = s.flux_y_m2_s(i, j);
            turned.flux_y_m2_s(j, i) = s.flux_x_m2_s(i, j);
            turned.flux_x_m2_s(j, i) = s.flux_y_m2_s(i, j);
        }
    for (int j = 0; j < n; ++j)
        mirrored.flux_x_m2_s(n - 1, j) = 0;
    pigment::PigmentWorkspace w;
    for (auto* sheet : {&s, &mirrored, &turned}) {
        pour(*sheet, dt_s);
        pigment::advect(*sheet, w, dt_s);
    }
    int differ = 0;
    each([&](const auto& a, const auto& m, const auto& t) {
        for (int j = 0; j < n; ++j)
            for (int i = 0; i < n; ++i)
                differ += (m(n - 1 - i, j) != a(i, j)) + (t(j, i) != a(i, j));
    });
    CHECK(differ == 0);
}

TEST_CASE("transport: one thread and two give the same bytes, a used workspace as well", "[law][pigment]") {
    auto one = scattered(200, 150, 9), two = one;
    pigment::PigmentWorkspace w1, w2;
    const int threads = omp_get_max_threads();
    Dice d1{29}, d2{29};
    for (int step = 0; step < 5; ++step) {
        random_fluxes(one, d1, dt_s, 0.2), random_fluxes(two, d2, dt_s, 0.2);
        pour(one, dt_s), pour(two, dt_s);
        omp_set_num_threads(1);
        pigment::advect(one, w1, dt_s);
        omp_set_num_threads(2);
        if (step == 3)
            w2 = {};
        pigment::advect(two, w2, dt_s);
    }
    omp_set_num_threads(threads);
    CHECK(same(one.pigments[1].afloat_upper, two.pigments[1].afloat_upper));
    CHECK(same(one.pigments[0].afloat_lower, two.pigments[0].afloat_lower));
    CHECK(same(one.gum_lower_kg_m2, two.gum_lower_kg_m2));
}

TEST_CASE("transport: half the step changes the answer by less than the step did", "[law][pigment]") {
    // A blob in a steady shear between walls; the time error of one halving must be small and shrink with the next.
    const auto run = [](int steps) {
        auto s = flooded(64, 64, 100e-6f, {grain(1500, 0.1e-6)});
        auto& p = s.pigments[0];
        for (int j = 0; j < 64; ++j)
            for (int i = 0; i < 64; ++i) {
                const double r2 = (i - 20.0) * (i - 20.0) + (j - 32.0) * (j - 32.0);
                p.afloat_lower(i, j) = p.afloat_upper(i, j) = static_cast<float>(1e-3 * std::exp(-r2 / 40));
                s.flux_x_m2_s(i, j) = i < 63 ? 100e-6f * 1e-3f * static_cast<float>(j) / 64 : 0.0f;
            }
        pigment::PigmentWorkspace w;
        for (int k = 0; k < steps; ++k)
            pigment::advect(s, w, 6.0 / steps);
        return s.pigments[0].afloat_upper;
    };
    const auto a = run(20), b = run(40), c = run(80);
    double ab = 0, bc = 0, all = 0;
    for (int j = 0; j < 64; ++j)
        for (int i = 0; i < 64; ++i)
            ab += std::abs(a(i, j) - b(i, j)), bc += std::abs(b(i, j) - c(i, j)), all += b(i, j);
    CHECK(ab / all < 0.02);
    CHECK(bc < 0.7 * ab);
}

TEST_CASE("transport: what sleeps stays as it is, and its faces are shut", "[law][pigment]") {
    auto s = scattered(96, 64, 13);
    pigment::PigmentWorkspace w;
    Dice dice{31};
    random_fluxes(s, dice, dt_s, 0.2);
    pour(s, dt_s);
    pigment::advect(s, w, dt_s); // all awake: leaves traces in the workspace
    s.film_tiles.set(2, 0, false), s.film_tiles.set(2, 1, false);
    s.film_tiles.rebuild();
    const auto before = s.pigments[0].afloat_upper;
    double awake_before = 0, awake_after = 0;
    const auto awake = [&] {
        double sum = 0;
        for (int j = 0; j < 64; ++j)
            for (int i = 0; i < 64; ++i)
                sum += s.pigments[0].afloat_upper(i, j) + s.pigments[0].afloat_lower(i, j);
        return sum;
    };
    awake_before = awake();
    pigment::advect(s, w, dt_s); // stale fluxes point into the sleeping tiles
    awake_after = awake();
    bool untouched = true;
    for (int j = 0; j < 64; ++j)
        for (int i = 64; i < 96; ++i)
            untouched = untouched && s.pigments[0].afloat_upper(i, j) == before(i, j);
    CHECK(untouched);
    CHECK(awake_after == Approx(awake_before).epsilon(1e-6));
}
