#include "pigment/advance.h"
#include "pigment/hold.h"
#include "support/pigment_scene.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <omp.h>

using namespace tidemark;
using namespace tidemark::pigment_scene;

namespace {

constexpr float film_m = 100e-6f;
constexpr int n = 32;

void fill(sheet::SheetState& s, float half_kg_m2) {
    for (auto& p : s.pigments)
        for (int j = 0; j < s.geometry.ny; ++j)
            for (int i = 0; i < s.geometry.nx; ++i)
                p.afloat_lower(i, j) = p.afloat_upper(i, j) = half_kg_m2;
}

double settled_after(const materials::Pigment& p, double time_s, double dt_s) {
    auto s = flooded(n, n, film_m, {p});
    fill(s, 0.5e-3f);
    pigment::PigmentWorkspace w;
    for (int k = 0; k < std::lround(time_s / dt_s); ++k)
        pigment::advance(s, w, dt_s);
    return s.pigments[0].loose(3, 3) / 1e-3;
}

} // namespace

TEST_CASE("settling in a still film follows the two-layer implicit law", "[law][pigment]") {
    // Stokes with the solid share of a floc, hindered by the crowd of flocs; staining 0: nothing is caught.
    const auto p = grain(2340, 2e-6, 0.0);
    auto s = flooded(n, n, film_m, {p});
    fill(s, 0.5e-3f);
    pigment::PigmentWorkspace w;
    const double dt_s = 0.5, T = s.room.temperature_K;
    const double v =
        0.4 * (2340 - pigment::water_density_kg_m3(T)) * 9.80665 * 4e-12 / (18 * pigment::water_viscosity_Pa_s(T));
    const double jitter = 2 * 1.380649e-23 * T / (3 * 3.14159265 * pigment::water_viscosity_Pa_s(T) * 2e-6) * dt_s;
    double u = 0.5e-3, l = 0.5e-3, loose = 0;
    for (int step = 0; step < 40; ++step) {
        pigment::advance(s, w, dt_s);
        const double r = jitter * 4 / (film_m * film_m), shift = 0.5 * (u - l) * r / (1 + r);
        u -= shift, l += shift;
        const double phi = (u + l) / 2340 / film_m / 0.4, k = v * std::pow(1 - phi, 4.65) * dt_s / (0.5 * film_m);
        const double upper = u / (1 + k), lower = (l + u - upper) / (1 + k);
        loose += u + l - upper - lower;
        u = upper, l = lower;
    }
    // 40 roundings of 6e-8, and 2e-5 of the square-root form of the crowd
    CHECK(s.pigments[0].afloat_upper(5, 7) == Approx(u).epsilon(1e-4));
    CHECK(s.pigments[0].afloat_lower(5, 7) == Approx(l).epsilon(1e-4));
    CHECK(s.pigments[0].loose(5, 7) == Approx(loose).epsilon(1e-4));
    CHECK(loose > 0.2e-3); // 1.2 um/s for 20 s through 100 um
}

TEST_CASE("settling: coarse before fine, heavy before light, and half the step agrees", "[law][pigment]") {
    const double fine = settled_after(grain(2340, 0.5e-6, 0), 60, 1),
                 coarse = settled_after(grain(2340, 2e-6, 0), 60, 1);
    CHECK(fine < 0.5 * coarse);
    CHECK(settled_after(grain(4000, 0.5e-6, 0), 60, 1) > 1.5 * fine);
    CHECK(settled_after(grain(2340, 0.5e-6, 0, 1.0, 0.7), 60, 1) > 1.5 * fine); // flocs
    const double whole = settled_after(grain(2340, 2e-6, 0), 20, 1),
                 half = settled_after(grain(2340, 2e-6, 0), 20, 0.5),
                 quarter = settled_after(grain(2340, 2e-6, 0), 20, 0.25);
    CHECK(std::abs(whole - half) < 0.02);
    CHECK(std::abs(half - quarter) < 0.6 * std::abs(whole - half)); // first order
}

TEST_CASE("settling: a spread of sizes keeps the mean time afloat", "[law][pigment]") {
    // Mean of h/v over log-normal sizes by the midpoint rule, against the one speed used.
    auto p = grain(2340, 2e-6, 0, 1.8);
    const double sigma = std::log(1.8), T = 293.15;
    double mean = 0, weight = 0;
    for (int k = -4000; k < 4000; ++k) {
        const double z = (k + 0.5) / 500, w = std::exp(-0.5 * z * z);
        const double v = 0.4 * pigment::stokes_velocity_m_s(2340, 2e-6 * std::exp(sigma * z), T);
        mean += w / v, weight += w;
    }
    CHECK(weight / mean == Approx(pigment::settling_velocity_m_s(p, T)).epsilon(1e-4));
}

TEST_CASE("the jitter of fine grains evens out the two halves", "[law][pigment]") {
    const auto p = grain(1001, 0.05e-6, 0);
    auto s = flooded(n, n, 30e-6f, {p});
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i)
            s.pigments[0].afloat_lower(i, j) = 1e-3f;
    pigment::PigmentWorkspace w;
    for (int k = 0; k < 400; ++k)
        pigment::advance(s, w, 0.05);
    const double D = pigment::diffusivity_m2_s(0.05e-6, s.room.temperature_K);
    const double left = (s.pigments[0].afloat_lower(1, 1) - s.pigments[0].afloat_upper(1, 1)) / 1e-3;
    CHECK(left == Approx(std::exp(-8 * D / (30e-6 * 30e-6) * 20)).epsilon(0.01)); // first order in dt: 0.2 %
}

TEST_CASE("water drawn into the sheet takes its share and leaves an even film even", "[law][pigment]") {
    // The finest passes the pores; the coarsest stays on the felt.
    auto fine = grain(1001, 0.02e-6, 0), coarse = grain(1001, 20e-6, 0);
    auto s = flooded(n, n, film_m, {fine, coarse});
    fill(s, 0.5e-3f); // 10 kg/m³
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) {
            s.drawn_m(i, j) = 20e-6f;
            s.film_m(i, j) = 80e-6f;
            s.gum_lower_kg_m2(i, j) = s.gum_upper_kg_m2(i, j) = 0.2e-3f;
        }
    pigment::PigmentWorkspace w;
    pigment::advance(s, w, 1e-6); // nothing else has time to happen
    for (const auto& p : s.pigments) {
        CHECK(p.afloat_lower(4, 4) == Approx(0.4e-3).epsilon(1e-5));
        CHECK(p.afloat_upper(4, 4) == Approx(0.4e-3).epsilon(1e-5));
        CHECK(p.inside(4, 4) + p.loose(4, 4) == Approx(0.2e-3).epsilon(1e-5));
    }
    CHECK(s.pigments[0].inside(4, 4) > 0.19e-3);
    CHECK(s.pigments[1].loose(4, 4) > 0.19e-3);
    CHECK(s.gum_bound_kg_m2(4, 4) == Approx(0.08e-3).epsilon(1e-5));
    CHECK(s.drawn_m(4, 4) == 0);
    pigment::advance(s, w, 1e-6); // counted once only
    CHECK(s.gum_bound_kg_m2(4, 4) == Approx(0.08e-3).epsilon(1e-5));
}

TEST_CASE("where the film is gone everything afloat is set down", "[law][pigment]") {
    auto s = flooded(n, n, film_m, {grain(1500, 0.1e-6)});
    fill(s, 0.5e-3f);
    s.gum_lower_kg_m2(2, 2) = s.gum_upper_kg_m2(2, 2) = 1e-4f;
    s.film_m(2, 2) = 0;
    s.film_m(3, 2) = 0.2e-6f;
    s.front_kg_m2.fill(0.2); // damp
    pigment::PigmentWorkspace w;
    pigment::advance(s, w, 0.01);
    for (int i = 2; i <= 3; ++i) {
        CHECK(s.pigments[0].afloat_lower(i, 2) == 0);
        CHECK(s.pigments[0].afloat_upper(i, 2) == 0);
        CHECK(s.pigments[0].loose(i, 2) == 1e-3f);
        CHECK(s.pigments[0].bound(i, 2) == 0);
    }
    CHECK(s.gum_bound_kg_m2(2, 2) == 2e-4f);
    CHECK(s.pigments[0].loose(4, 2) < 1e-5f);
}

TEST_CASE("a staining pigment is caught by the fibre, another is not", "[law][pigment]") {
    auto s = flooded(n, n, film_m, {grain(1001, 0.1e-6, 0.9), grain(1001, 0.1e-6, 0.0)});
    fill(s, 0.5e-3f);
    pigment::PigmentWorkspace w;
    for (int k = 0; k < 100; ++k)
        pigment::advance(s, w, 1.0);
    CHECK(s.pigments[0].bound(1, 1) > 0.1 * 1e-3);
    CHECK(s.pigments[0].bound(1, 1) < 0.9 * 1e-3);
    CHECK(s.pigments[1].bound(1, 1) == 0);
    // Half the affinity catches less, a tenth of the step as much.
    const auto caught = [](double affinity, double dt_s) {
        auto one = flooded(n, n, film_m, {grain(1001, 0.1e-6, affinity)});
        fill(one, 0.5e-3f);
        pigment::PigmentWorkspace work;
        for (int k = 0; k < std::lround(100 / dt_s); ++k)
            pigment::advance(one, work, dt_s);
        return one.pigments[0].bound(1, 1);
    };
    CHECK(caught(0.45, 1) < 0.6 * caught(0.9, 1));
    CHECK(caught(0.9, 0.1) == Approx(caught(0.9, 1)).epsilon(0.03));
}

TEST_CASE("what is held soaks out under water, all but what stains; without water it stays", "[law][pigment]") {
    auto s = flooded(n, n, film_m, {grain(1001, 0.1e-6, 0.25), grain(1001, 0.1e-6, 1.0)});
    for (auto& p : s.pigments)
        p.bound.fill(1e-3f), p.inside.fill(1e-3f);
    s.film_m(2, 2) = 0;
    pigment::PigmentWorkspace w;
    for (int k = 0; k < 50; ++k)
        pigment::advance(s, w, 1.0);
    const double left = std::exp(-0.75 * 50 / pigment::soak_time_s);
    CHECK(s.pigments[0].inside(1, 1) == Approx(1e-3 * left).epsilon(0.01));
    CHECK(s.pigments[0].afloat_lower(1, 1) + s.pigments[0].afloat_upper(1, 1) > 0.3e-3f);
    CHECK(s.pigments[1].inside(1, 1) == 1e-3f);
    CHECK(s.pigments[0].inside(2, 2) == 1e-3f);
    CHECK(s.pigments[0].bound(2, 2) == 1e-3f);
}

TEST_CASE("flow lifts what is settled, a quiet film does not", "[law][pigment]") {
    auto s = flooded(64, n, film_m, {grain(2340, 0.3e-6, 0)});
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < 64; ++i) {
            s.pigments[0].loose(i, j) = 1e-3f;
            if (i >= 32)
                s.flux_x_m2_s(i, j) = 20e-3f * film_m; // 20 mm/s: 0.6 Pa
            else
                s.flux_x_m2_s(i, j) = 10e-6f * film_m; // 10 um/s: 3e-4 Pa
        }
    pigment::PigmentWorkspace w;
    pigment::advance(s, w, 0.1);
    CHECK(s.pigments[0].afloat_lower(10, 5) == 0);
    CHECK(s.pigments[0].afloat_lower(50, 5) > 1e-5f);
    CHECK(everything(s, 0) == Approx(64 * n * 1e-3).epsilon(1e-6));
}

TEST_CASE("in place, every mass is kept and stays positive through 1000 drying steps", "[law][pigment]") {
    auto s = flooded(60, 50, film_m,
                     {grain(1500, 0.1e-6, 0.9), grain(2340, 2.5e-6, 0.25, 1.8, 0.75), grain(5000, 0.4e-6)});
    Dice dice{41};
    for (int j = 0; j < 50; ++j)
        for (int i = 0; i < 60; ++i) {
            s.film_m(i, j) = 150e-6f * dice();
            for (auto& p : s.pigments)
                for (auto* m : {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside})
                    (*m)(i, j) = 3e-3f * dice();
            s.gum_lower_kg_m2(i, j) = s.gum_upper_kg_m2(i, j) = 2e-3f * dice();
        }
    const double before[] = {everything(s, 0), everything(s, 1), everything(s, 2)};
    const auto gum = [&] {
        return total(s, s.gum_lower_kg_m2) + total(s, s.gum_upper_kg_m2) + total(s, s.gum_bound_kg_m2);
    };
    const double gum_before = gum();
    pigment::PigmentWorkspace w;
    for (int step = 0; step < 1000; ++step) {
        for (int j = 0; j < 50; ++j)
            for (int i = 0; i < 60; ++i) {
                s.drawn_m(i, j) = std::min(s.film_m(i, j), 0.2e-6f * dice());
                s.film_m(i, j) -= s.drawn_m(i, j);
            }
        random_fluxes(s, dice, 0.1, 0.2);
        pigment::advance(s, w, 0.005 + 0.2 * dice());
    }
    for (int k = 0; k < 3; ++k)
        CHECK(everything(s, k) == Approx(before[k]).epsilon(1e-6));
    CHECK(gum() == Approx(gum_before).epsilon(1e-6));
    int negative = 0;
    for (const auto& p : s.pigments)
        for (const auto* m : {&p.afloat_lower, &p.afloat_upper, &p.loose, &p.bound, &p.inside})
            for (int j = 0; j < 50; ++j)
                for (int i = 0; i < 60; ++i)
                    negative += (*m)(i, j) < 0;
    CHECK(negative == 0);
}

TEST_CASE("in place: one thread and two give the same bytes, rows as columns", "[law][pigment]") {
    auto one = flooded(160, 160, film_m, {grain(2340, 2.5e-6, 0.25, 1.8, 0.75)});
    Dice dice{43};
    auto& p = one.pigments[0];
    for (int j = 0; j < 160; ++j)
        for (int i = 0; i < 160; ++i)
            p.afloat_lower(i, j) = 1e-3f * dice(), p.loose(i, j) = 1e-3f * dice();
    random_fluxes(one, dice, 0.1, 2.0);
    auto two = one, turned = one;
    for (int j = 0; j < 160; ++j)
        for (int i = 0; i < 160; ++i) {
            turned.pigments[0].afloat_lower(j, i) = p.afloat_lower(i, j),
                                               turned.pigments[0].loose(j, i) = p.loose(i, j);
            turned.flux_y_m2_s(j, i) = one.flux_x_m2_s(i, j), turned.flux_x_m2_s(j, i) = one.flux_y_m2_s(i, j);
        }
    pigment::PigmentWorkspace w;
    const int threads = omp_get_max_threads();
    omp_set_num_threads(1);
    pigment::advance(one, w, 0.3);
    omp_set_num_threads(2);
    pigment::advance(two, w, 0.3);
    pigment::advance(turned, w, 0.3);
    omp_set_num_threads(threads);
    int differ = 0;
    for (int j = 0; j < 160; ++j) {
        differ += std::memcmp(p.loose.row(j), two.pigments[0].loose.row(j), 160 * sizeof(float)) != 0;
        for (int i = 0; i < 160; ++i)
            differ += p.loose(i, j) != turned.pigments[0].loose(j, i);
    }
    CHECK(differ == 0);
}
