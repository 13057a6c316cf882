// The faces around a part of the sheet.
#include <catch2/catch.hpp>

#include <set>
#include <tuple>

#include "sheet/rim.h"

using namespace tidemark;

TEST_CASE("a rim is every face between the part and what is awake around it, once", "[law][sheet]") {
    auto s = sheet::SheetState::make(0.080, 0.064, 0.5e-3, materials::Paper{}, {}, sheet::BoardKind::sealed, {}, 1);
    s.film_tiles.set_all(true);
    s.film_tiles.set(0, 0, false), s.film_tiles.rebuild(); // asleep: no face towards it
    grid::TileSet part(s.geometry.px, s.geometry.py);
    for (auto [ti, tj] : {std::pair{1, 0}, {1, 1}, {2, 1}, {4, 3}})
        part.set(ti, tj, true);
    const auto rim = sheet::rim_of(s, part);
    std::set<std::tuple<bool, int, int>> seen;
    for (const sheet::RimFace& f : rim) {
        CHECK(seen.emplace(f.across, f.i, f.j).second);
        CHECK(part.awake(f.inner_i() / 32, f.inner_j() / 32));
        CHECK(!part.awake(f.outer_i() / 32, f.outer_j() / 32));
        CHECK(s.film_tiles.awake(f.outer_i() / 32, f.outer_j() / 32));
        CHECK(std::abs(f.inner_i() - f.outer_i()) + std::abs(f.inner_j() - f.outer_j()) == 1);
        CHECK(std::min(f.inner_i(), f.outer_i()) == f.i);
        CHECK(std::min(f.inner_j(), f.outer_j()) == f.j);
    }
    // (1,0): right; (1,1): left, below; (2,1): above, right, below; (4,3): left, above.
    CHECK(rim.size() == 8 * 32);
}
