// How unevenly paint lies within a cell (sheet/uneven.h): told from hills, never from the fall of a soft edge.
#include "sheet/uneven.h"

#include "materials/presets.h"

#include <catch2/catch.hpp>
#include <functional>

using namespace tidemark;

namespace {

/// 50 × 20 mm of hot-pressed paper, whose hills are partly finer than these cells, and one pigment: the last column of
/// tiles is 4 cells wide.
sheet::SheetState painted(const std::function<double(int i, int j, double hill_m)>& load_kg_m2) {
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    auto s = sheet::SheetState::make(50e-3, 20e-3, 0.5e-3, *presets.paper("hot-pressed-300"), {}, sheet::BoardKind::sealed,
                                     {*presets.pigment("PB29")}, 3);
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            s.pigments[0].bound(i, j) = static_cast<float>(load_kg_m2(i, j, s.relief_m(i, j)));
    return s;
}

/// The shares of the tiles along the top of the sheet; 0: as good as even.
std::vector<float> shares(const sheet::SheetState& s) {
    REQUIRE(s.relief_subgrid_rms_m > 0);
    const sheet::Unevenness uneven(s);
    std::vector<float> all;
    for (const int i : {5, 40, 70, 98}) all.push_back(uneven.at(i, 5) ? *uneven.at(i, 5) : 0.0f);
    return all;
}

} // namespace

TEST_CASE("a load that falls off evenly lies evenly within its cells", "[law][sheet]") {
    const double mean = 1e-3, fall = 0.6 / 100;
    for (const double share : shares(painted([&](int i, int, double) { return mean * (1 + fall * (i - 50)); })))
        CHECK(std::abs(share) < 0.03);
    for (const double share : shares(painted([&](int, int j, double) { return mean * (1 + 0.03 * (j - 20)); })))
        CHECK(std::abs(share) < 0.03);
}

TEST_CASE("a load that follows the hills tells how it lies below a cell, to the last column", "[law][sheet]") {
    const double per_m = -4e4;
    const auto s = painted([&](int, int, double hill_m) { return 1e-3 * std::max(0.0, 1 + per_m * hill_m); });
    const double expected = per_m * s.relief_subgrid_rms_m;
    INFO("hills below a cell " << s.relief_subgrid_rms_m << " m");
    for (const double share : shares(s)) CHECK(share == Approx(expected).epsilon(0.05));
}
