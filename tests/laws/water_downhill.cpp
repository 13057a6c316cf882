// A film that drains down a board, in steps that its waves cross several cells in.
#include "support/water_scenes.h"
#include "water/downhill.h"
#include "water/update_rows.h"

#include <random>

using namespace scenes;

namespace {

constexpr double steep = 1.3648; // g sin 8°

double wave_m_s(double depth_m) { return steep * depth_m * depth_m / nu_water_m2_s; }

/// An even film with a deep strip across it, on a board that falls towards x or y.
Scene strip(bool along_x, double depth_m = 60e-6, double deep_m = 160e-6) {
    Scene s(along_x ? 0.064 : 0.016, along_x ? 0.016 : 0.064, 0.5e-3, bare_film());
    s.tilt(8, along_x ? 0 : M_PI / 2);
    s.lay([&](double x, double y) { return (along_x ? x : y) < 0.016 ? deep_m : depth_m; });
    return s;
}

struct Foretold {
    double volume = 0, least = 1;
    grid::Field<float> ahead;
};

Foretold foretold(const Scene& s, water::Slope slope, double dt_s) {
    const auto& g = s.sheet.geometry;
    grid::Field<float> pressure(g.px, g.py), way(g.px, g.py), factor(g.px, g.py, 1.0f);
    for (int j = 0; j < g.ny; ++j) // no way off the sheet
        std::fill_n(way.row(j), g.nx, 1.0f);
    Foretold f;
    f.ahead.resize(g.px, g.py);
    water::foretell(s.sheet, s.params, pressure, way, factor, slope, dt_s, f.ahead);
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) {
            f.volume += f.ahead(i, j) * g.cell_area_m2();
            f.least = std::min(f.least, static_cast<double>(f.ahead(i, j)));
        }
    return f;
}

} // namespace

TEST_CASE("foretold depths keep the water and stay positive for steps of any length", "[law][water]") {
    for (bool along_x : {true, false})
        for (double sign : {1.0, -1.0})
            for (double cells : {0.5, 4.0, 64.0}) {
                Scene s = strip(along_x);
                const auto pull = static_cast<float>(sign * steep);
                const double dt_s = cells * s.cell() / wave_m_s(160e-6);
                const auto f = foretold(s, along_x ? water::Slope{pull, 0} : water::Slope{0, pull}, dt_s);
                CHECK(f.volume == Approx(s.volume()).epsilon(1e-5)); // sums of floats
                CHECK(f.least >= 0);
            }
}

// Whitham (1974): a shock between two depths runs at (F1 - F0)/(h1 - h0). Within one step of six cells of it the
// foretold step has moved by it in the mean, which only mass that passed several cells can do.
TEST_CASE("whitham 1974: a foretold front passes several cells in one step", "[published][water]") {
    Scene s = strip(false);
    const double deep = 160e-6, thin = 60e-6;
    const double shock_m_s = steep / (3 * nu_water_m2_s) * (deep * deep * deep - thin * thin * thin) / (deep - thin);
    const double dt_s = 6 * s.cell() / shock_m_s;
    const auto f = foretold(s, {0, static_cast<float>(steep)}, dt_s);
    double passed = 0; // what is now below the front's first place
    for (int j = 32; j < 96; ++j)
        passed += (f.ahead(8, j) - thin) * s.cell();
    // All that left the deep strip and was not there before; the even film hands on what it gets.
    CHECK(passed == Approx(6 * s.cell() * (deep - thin)).epsilon(0.25)); // first order: the front is spread
    CHECK(f.ahead(8, 34) > 1.5 * thin);
    CHECK(f.ahead(8, 90) == Approx(thin).epsilon(0.02));
}

TEST_CASE("a cell gives no more than it had and was given from above, whatever the fluxes", "[law][water]") {
    for (water::Slope slope : {water::Slope{1, 0}, {-1, 0.2f}, {0.3f, 1}, {0, -1}}) {
        Scene s = strip(true);
        std::mt19937 random(7);
        auto &qx = s.sheet.flux_x_m2_s, &qy = s.sheet.flux_y_m2_s;
        for (int j = 0; j < s.ny(); ++j)
            for (int i = 0; i < s.nx(); ++i) {
                const auto any = [&] { return static_cast<float>((random() / 4294967296.0 - 0.5) * 1e-6); };
                qx(i, j) = i + 1 < s.nx() ? any() : 0, qy(i, j) = j + 1 < s.ny() ? any() : 0;
            }
        const double dt_s = 0.2, k = dt_s / s.cell();
        grid::Field<float> given(s.sheet.geometry.px, s.sheet.geometry.py);
        water::limit_downhill(s.sheet, slope, dt_s, given);
        double least = 1;
        int limited = 0;
        for (int j = 0; j < s.ny(); ++j)
            for (int i = 0; i < s.nx(); ++i) {
                least = std::min(least, s.h(i, j) - k * ((qx(i, j) - qx(i - 1, j)) + (qy(i, j) - qy(i, j - 1))));
                limited += given(i, j) < 1;
            }
        CHECK(limited > 100);
        CHECK(least > -1e-9); // a float's rounding of 160 µm is 1e-11
    }
}

// First order in time: half the step, half the error (0.7 leaves room for what half a cell a step is off itself). The
// strip is still a front 100 µm high that has run 20 mm: 8 % is a cell or two of it.
TEST_CASE("a strip that drains comes out the same in long steps as in short ones", "[law][water]") {
    const auto end_of = [](double cells) {
        Scene s = strip(false);
        s.params.gamma_N_m = 0.055, s.params.held_m = 20e-6;
        s.solver = water::FilmSolver(s.sheet, s.params);
        s.wake();
        const int steps = static_cast<int>(std::lround(1.2 * wave_m_s(140e-6) / (cells * s.cell())));
        s.run(steps, 1.2 / steps);
        return s;
    };
    Scene truth = end_of(0.5);
    const auto error = [&](double cells) {
        const Scene s = end_of(cells);
        double apart = 0;
        for (int j = 0; j < truth.ny(); ++j)
            for (int i = 0; i < truth.nx(); ++i)
                apart += std::abs(static_cast<double>(truth.h(i, j)) - s.sheet.film_m(i, j));
        return apart * truth.sheet.geometry.cell_area_m2() / truth.volume();
    };
    const double two = error(2), four = error(4);
    CAPTURE(two, four);
    CHECK(four < 0.08);
    CHECK(two < 0.7 * four);
    CHECK(truth.h(16, 60) > 1.2 * 60e-6); // it has come down this far
}
