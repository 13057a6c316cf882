// More water runs through a cell in a step than it holds: the head of a wash that runs down a board.
#include "support/pigment_scene.h"

#include <catch2/catch.hpp>

using namespace tidemark;
using namespace tidemark::pigment_scene;

namespace {

constexpr double dt_s = 0.1, cell_m = 0.5e-3;
constexpr int nx = 64, ny = 32;

/// Afloat in all, kg/m², at a concentration of c.
void paint(sheet::SheetState& s, float c_kg_m3) {
    auto& p = s.pigments[0];
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            p.afloat_lower(i, j) = p.afloat_upper(i, j) = 0.5f * c_kg_m3 * s.film_m(i, j);
}

/// Fluxes along x that take each row from the film it has to `after`, which holds as much.
template <class After> void run_to(sheet::SheetState& s, const After& after) {
    for (int j = 0; j < ny; ++j) {
        double passed_m = 0;
        for (int i = 0; i < nx; ++i) {
            passed_m += s.film_m(i, j) - after(i, j);
            s.flux_x_m2_s(i, j) = static_cast<float>(i + 1 < nx ? passed_m * cell_m / dt_s : 0);
            s.flux_y_m2_s(i, j) = 0;
        }
    }
}

double at(const sheet::SheetState& s, int i, int j) {
    return double(s.pigments[0].afloat_lower(i, j)) + s.pigments[0].afloat_upper(i, j);
}

double worst_unevenness(const sheet::SheetState& s, double c_kg_m3) {
    double worst = 0;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            if (s.film_m(i, j) > 1e-6)
                worst = std::max(worst, std::abs(at(s, i, j) / (c_kg_m3 * s.film_m(i, j)) - 1));
    return worst;
}

} // namespace

TEST_CASE("transport: an even wash that drains through thin and dry cells stays even", "[law][pigment]") {
    auto s = flooded(nx, ny, 0, {grain(1500, 0.1e-6)});
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            s.film_m(i, j) = i < 16 ? 120e-6f : i < 24 ? 2e-6f : 0.0f;
    const double held_m = 16 * 120e-6 + 8 * 2e-6;
    paint(s, 10);
    const double before = everything(s, 0);
    // It runs over 24 cells that hold next to nothing in two steps, then stands in a bead.
    run_to(s, [&](int i, int) { return i < 8 ? 40e-6 : i < 40 ? (held_m - 8 * 40e-6) / 32 : 0.0; });
    pour(s, dt_s);
    pigment::PigmentWorkspace w;
    const auto moved = pigment::advect(s, w, dt_s);
    CHECK(moved.worst_cfl > 100);
    CHECK(worst_unevenness(s, 10) < 1e-4);
    run_to(s, [&](int i, int) { return i < 40 ? 5e-6 : i < 60 ? (held_m - 40 * 5e-6) / 20 : 0.0; });
    pour(s, dt_s);
    pigment::advect(s, w, dt_s);
    CHECK(worst_unevenness(s, 10) < 1e-4);
    CHECK(everything(s, 0) == Approx(before).epsilon(1e-6));
}

TEST_CASE("transport: clear water that runs ahead stays ahead of the paint", "[law][pigment]") {
    // The wash pushes 20 um of water out of a channel of thin cells: what left the far end first was clear.
    auto s = flooded(nx, ny, 0, {grain(1500, 0.1e-6)});
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i)
            s.film_m(i, j) = i < 16 ? 100e-6f : i < 32 ? 20e-6f : 0.0f;
    paint(s, 10);
    for (int j = 0; j < ny; ++j)
        for (int i = 16; i < nx; ++i)
            s.pigments[0].afloat_lower(i, j) = s.pigments[0].afloat_upper(i, j) = 0;
    run_to(s, [&](int i, int) { return i < 12 ? 100e-6 : i < 32 ? 20e-6 : i < 40 ? 40e-6 : 0.0; });
    pour(s, dt_s);
    pigment::PigmentWorkspace w;
    pigment::advect(s, w, dt_s);
    double near = 0, far = 0;
    for (int i = 12; i < 32; ++i)
        near += at(s, i, 5);
    for (int i = 32; i < nx; ++i)
        far += at(s, i, 5);
    CHECK(near > 2 * far); // in truth far is 0; the upper half runs ahead, and upwind smears
    double most = 0;
    for (int i = 0; i < nx; ++i)
        if (s.film_m(i, 5) > 0)
            most = std::max(most, at(s, i, 5) / s.film_m(i, 5));
    CHECK(most < 10 * 1.001); // nowhere stronger than the wash
}

TEST_CASE("transport: an even wash that runs round in rings stays even", "[law][pigment]") {
    auto s = flooded(nx, ny, 50e-6f, {grain(1500, 0.1e-6)});
    paint(s, 10);
    const double before = everything(s, 0);
    // Stream function on corners: no cell gains or loses, and some give 1.5 times what they hold.
    Dice dice{5};
    std::vector<double> psi(static_cast<std::size_t>(nx + 1) * (ny + 1), 0.0);
    for (int j = 1; j < ny; ++j)
        for (int i = 1; i < nx; ++i)
            psi[static_cast<std::size_t>(j) * (nx + 1) + i] = 1.2 * dice() * 50e-6 * cell_m / dt_s;
    const auto corner = [&](int i, int j) { return psi[static_cast<std::size_t>(j) * (nx + 1) + i]; };
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            s.flux_x_m2_s(i, j) = static_cast<float>(corner(i + 1, j + 1) - corner(i + 1, j));
            s.flux_y_m2_s(i, j) = static_cast<float>(corner(i, j + 1) - corner(i + 1, j + 1));
        }
    pour(s, dt_s);
    pigment::PigmentWorkspace w;
    for (int step = 0; step < 5; ++step)
        pigment::advect(s, w, dt_s);
    CHECK(worst_unevenness(s, 10) < 1e-3);
    CHECK(everything(s, 0) == Approx(before).epsilon(1e-6));
}

TEST_CASE("transport: a ring in a running wash upsets nothing, whichever way it runs", "[law][pigment]") {
    for (const bool leftwards : {false, true}) {
        auto s = flooded(nx, ny, 0, {grain(1500, 0.1e-6)});
        const auto column = [&](int i) { return leftwards ? nx - 1 - i : i; };
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i)
                s.film_m(column(i), j) = i < 16 ? 120e-6f : i < 40 ? 2e-6f : 0.0f;
        paint(s, 10);
        const double held_m = 16 * 120e-6 + 24 * 2e-6;
        run_to(s, [&](int i, int) {
            const int from_start = column(i);
            return from_start < 8 ? 40e-6 : from_start < 60 ? (held_m - 8 * 40e-6) / 52 : 0.0;
        });
        // Round a corner between rows 10 and 11, in the thin part; more than these cells hold.
        const float q = static_cast<float>(3e-6 * cell_m / dt_s);
        const int i = column(leftwards ? 21 : 20);
        s.flux_x_m2_s(i, 10) += q, s.flux_x_m2_s(i, 11) -= q;
        s.flux_y_m2_s(i + 1, 10) += q, s.flux_y_m2_s(i, 10) -= q;
        pour(s, dt_s);
        pigment::PigmentWorkspace w;
        pigment::advect(s, w, dt_s);
        INFO(leftwards);
        CHECK(worst_unevenness(s, 10) < 1e-3);
    }
}
