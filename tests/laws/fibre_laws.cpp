/// What must hold whatever the numbers: water is kept, nothing is negative, no direction or thread count matters.
#include "fibre/advance.h"
#include "sheet/ledger.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <omp.h>

using namespace tidemark;
using sheet::SheetState;

namespace {

constexpr int side = 160; // cells: more than 16 384 of them, so that threads share the work

void lay(SheetState& s, int i, int j, int at_i, int at_j) {
    const int wave = static_cast<int>(8 * std::sin(0.17 * i) + 6 * std::cos(0.23 * j));
    const bool wash = i + wave > 30 && i + wave < 110 && j > 25 && j - wave < 100;
    if (wash)
        s.film_m(at_i, at_j) = 1e-6f * static_cast<float>(1 + (i * 7 + j * 13) % 140);
    s.front_kg_m2(at_i, at_j) += j > 120 ? 0.15 : 0.0;
    s.back_kg_m2(at_i, at_j) += i < 60 ? 0.02 + 1e-3 * (j % 17) : 0.0;
    if ((i - 40) * (i - 40) + (j - 90) * (j - 90) < 50)
        s.surface(at_i, at_j) = static_cast<std::uint8_t>(sheet::Surface::reserved);
}

enum class Turned { no, mirrored, transposed };

SheetState scene(Turned turned = Turned::no, double lateral = 3e-8) {
    materials::Paper paper;
    paper.lateral_diffusivity_m2_s = lateral;
    auto s = SheetState::make(side * 0.5e-3, side * 0.5e-3, 0.5e-3, paper, {}, sheet::BoardKind::sealed, {}, 1);
    for (int j = 0; j < side; ++j)
        for (int i = 0; i < side; ++i) {
            if (turned == Turned::mirrored)
                lay(s, i, j, side - 1 - i, j);
            else if (turned == Turned::transposed)
                lay(s, i, j, j, i);
            else
                lay(s, i, j, i, j);
        }
    s.wake();
    return s;
}

fibre::FibreMoved soak(SheetState& s, double dt_s, int steps) {
    fibre::FibreWorkspace work;
    fibre::FibreMoved sum;
    for (int n = 0; n < steps; ++n) {
        if (n % 10 == 0)
            s.wake();
        const auto moved = fibre::advance(s, work, dt_s);
        sum.film_to_front_kg += moved.film_to_front_kg, sum.run_off_kg += moved.run_off_kg;
    }
    return sum;
}

double largest_difference(const SheetState& a, const SheetState& b) {
    double worst = 0;
    for (int j = 0; j < side; ++j)
        for (int i = 0; i < side; ++i)
            worst = std::max(worst, std::abs(a.front_kg_m2(i, j) - b.front_kg_m2(i, j)));
    return worst;
}

template <class T> bool same_bytes(const grid::Field<T>& a, const grid::Field<T>& b) {
    return a.bytes() == b.bytes() && std::memcmp(a.row(-1), b.row(-1), a.bytes() - 64) == 0;
}

} // namespace

TEST_CASE("water is kept to rounding while the sheet drinks and creeps", "[law][fibre]") {
    for (const double dt : {0.5, 4.0, 60.0}) {
        auto s = scene();
        sheet::Ledger ledger;
        const auto before = sheet::check(s, ledger);
        ledger.start_kg = before.film_kg + before.front_kg + before.back_kg;
        const auto moved = soak(s, dt, 60);
        ledger.run_off_kg = moved.run_off_kg;
        const auto after = sheet::check(s, ledger);
        CAPTURE(dt);
        CHECK(after.water_closure < 1e-12);
        CHECK(moved.film_to_front_kg == Approx(before.film_kg - after.film_kg).epsilon(1e-10));
        CHECK(moved.film_to_front_kg > 0);
    }
}

TEST_CASE("nothing becomes negative, drier than it was or fuller than capacity, whatever the step", "[law][fibre]") {
    for (const double lateral : {0.0, 1e-9, 3e-8, 1e-6})
        for (const double dt : {0.01, 4.0, 60.0}) {
            auto s = scene(Turned::no, lateral);
            const double rest = sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity);
            soak(s, dt, 12);
            double film = 1, half = 1, most = 0;
            for (int j = 0; j < side; ++j)
                for (int i = 0; i < side; ++i) {
                    film = std::min({film, static_cast<double>(s.film_m(i, j)),
                                     static_cast<double>(s.film_m(i, j)) + s.film_low_m(i, j)});
                    half = std::min({half, s.front_kg_m2(i, j), s.back_kg_m2(i, j)});
                    most = std::max({most, s.front_kg_m2(i, j), s.back_kg_m2(i, j)});
                }
            CAPTURE(lateral, dt);
            CHECK(film >= 0);
            CHECK(half >= rest * (1 - 1e-9));
            CHECK(most <= sheet::half_capacity_kg_m2(s.paper) * (1 + 1e-9));
        }
}

TEST_CASE("drawn_m is what the film lost in the step, and 0 without film or under resist", "[law][fibre]") {
    auto s = scene();
    const auto before = s.film_m;
    fibre::FibreWorkspace work;
    fibre::advance(s, work, 2);
    int wrong = 0;
    for (int j = 0; j < side; ++j)
        for (int i = 0; i < side; ++i) {
            const double lost = static_cast<double>(before(i, j)) - s.film_m(i, j) - s.film_low_m(i, j);
            wrong += std::abs(s.drawn_m(i, j) - lost) > 1e-7 * lost;
            if (s.surface(i, j) == static_cast<std::uint8_t>(sheet::Surface::reserved))
                wrong += s.drawn_m(i, j) != 0;
            if (before(i, j) == 0)
                wrong += s.drawn_m(i, j) != 0;
        }
    CHECK(wrong == 0);
}

TEST_CASE("a mirrored or transposed sheet soaks to the mirrored bytes", "[law][fibre]") {
    for (const double dt : {0.5, 30.0}) { // one explicit stage; many
        auto straight = scene(), mirrored = scene(Turned::mirrored), transposed = scene(Turned::transposed);
        soak(straight, dt, 30), soak(mirrored, dt, 30), soak(transposed, dt, 30);
        int apart = 0;
        for (int j = 0; j < side; ++j)
            for (int i = 0; i < side; ++i) {
                apart += straight.front_kg_m2(i, j) != mirrored.front_kg_m2(side - 1 - i, j);
                apart += straight.front_kg_m2(i, j) != transposed.front_kg_m2(j, i);
                apart += straight.back_kg_m2(i, j) != transposed.back_kg_m2(j, i);
                apart += straight.film_m(i, j) != transposed.film_m(j, i);
            }
        CAPTURE(dt);
        CHECK(apart == 0);
    }
}

TEST_CASE("smaller steps agree, and more closely the smaller they are", "[law][fibre]") {
    auto fine = scene(), middle = scene(), coarse = scene();
    soak(fine, 0.5, 240), soak(middle, 4, 30), soak(coarse, 12, 10);
    const double near = largest_difference(middle, fine), far = largest_difference(coarse, fine);
    CAPTURE(near, far);
    CHECK(near < 0.6 * far);
    CHECK(near < 0.01); // kg/m², of 0.2
}

TEST_CASE("one thread and two soak to the same bytes", "[law][fibre]") {
    const int threads = omp_get_max_threads();
    for (const double dt : {0.5, 30.0}) {
        auto one = scene(), two = scene();
        omp_set_num_threads(1);
        const auto a = soak(one, dt, 20);
        omp_set_num_threads(2);
        const auto b = soak(two, dt, 20);
        omp_set_num_threads(threads);
        CHECK(a.film_to_front_kg == b.film_to_front_kg);
        CHECK(same_bytes(one.film_m, two.film_m));
        CHECK(same_bytes(one.front_kg_m2, two.front_kg_m2));
        CHECK(same_bytes(one.back_kg_m2, two.back_kg_m2));
        CHECK(same_bytes(one.drawn_m, two.drawn_m));
    }
}

TEST_CASE("creep crosses tiles as if they were not there", "[law][fibre]") {
    auto tiled = scene(), whole = scene();
    fibre::FibreWorkspace a, b;
    whole.damp_tiles.set_all(true), whole.damp_tiles.rebuild();
    for (int n = 0; n < 200; ++n) {
        tiled.wake(); // its margin is three cells; a step moves a front by one at most
        fibre::advance(tiled, a, 0.5), fibre::advance(whole, b, 0.5);
    }
    CHECK(tiled.damp_tiles.cells() < side * side); // some slept
    // A tile sleeps while it is within 0.1 % moisture of rest: 1.5e-4 kg/m².
    CHECK(largest_difference(tiled, whole) < 1.5e-4);
}

TEST_CASE("an even sheet stays even, to the last bit", "[law][fibre]") {
    auto s = SheetState::make(0.04, 0.03, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.front_kg_m2(i, j) = s.back_kg_m2(i, j) = 0.1234;
    s.wake();
    soak(s, 10, 20);
    int moved = 0;
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            moved += s.front_kg_m2(i, j) != 0.1234;
    CHECK(moved == 0);
}
