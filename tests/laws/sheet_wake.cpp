#include <catch2/catch.hpp>
#include <random>
#include <vector>

#include "grid/rows.h"
#include "sheet/sheet_state.h"

using namespace tidemark;
using sheet::SheetState;

namespace {

constexpr int tile = grid::TileSet::size, margin = 6; // as sheet/wake.cpp has it

SheetState blank(int nx, int ny) {
    return SheetState::make(nx * 0.5e-3, ny * 0.5e-3, 0.5e-3, {}, {}, sheet::BoardKind::sealed, {}, 1);
}

/// By the rule itself: a tile is awake when a cell that holds something lies in it, or within the margin of it,
/// across sides and corners, with a cell of the sheet in between.
template <class Holds> bool should_wake(const SheetState& s, int ti, int tj, Holds&& holds) {
    for (int j = 0; j < s.geometry.ny; ++j)
        for (int i = 0; i < s.geometry.nx; ++i)
            if (holds(i, j))
                for (int dj = -margin; dj <= margin; ++dj)
                    for (int di = -margin; di <= margin; ++di)
                        if (s.inside(i + di, j + dj) && (i + di) / tile == ti && (j + dj) / tile == tj) return true;
    return false;
}

void check(const SheetState& s) {
    const double resting = sheet::half_equilibrium_kg_m2(s.paper, s.room.humidity);
    const auto film = [&](int i, int j) { return s.film_m(i, j) > 0; };
    const auto damp = [&](int i, int j) {
        const double apart = 0.001 * 0.5 * s.paper.basis_kg_m2;
        return film(i, j) || std::abs(s.front_kg_m2(i, j) - resting) > apart ||
               std::abs(s.back_kg_m2(i, j) - resting) > apart;
    };
    for (int tj = 0; tj < s.film_tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < s.film_tiles.tiles_x(); ++ti) {
            INFO("sheet " << s.geometry.nx << " x " << s.geometry.ny << ", tile " << ti << ", " << tj);
            CHECK(s.film_tiles.awake(ti, tj) == should_wake(s, ti, tj, film));
            CHECK(s.damp_tiles.awake(ti, tj) == should_wake(s, ti, tj, damp));
        }
}

} // namespace

TEST_CASE("awake are the tiles with film or moisture, and those it may reach", "[law][sheet]") {
    std::mt19937 random(5);
    // Sheets that end one, two, three cells into a tile, or before its margin.
    for (const auto& [nx, ny] : {std::pair{96, 64}, {65, 98}, {66, 35}, {67, 33}, {94, 34}, {20, 2}, {1, 70}}) {
        for (int round = 0; round < 20; ++round) {
            SheetState s = blank(nx, ny);
            for (int k = 0; k < 1 + round % 4; ++k) {
                const int i = static_cast<int>(random() % nx), j = static_cast<int>(random() % ny);
                switch (random() % 4) {
                case 0: s.film_m(i, j) = 1e-6f; break;
                case 1: s.front_kg_m2(i, j) += 1e-3; break;
                case 2: s.back_kg_m2(i, j) -= 1e-3; break;
                default: s.front_kg_m2(i, j) += 1e-6; // too little to matter
                }
            }
            s.wake();
            check(s);
        }
    }
}

TEST_CASE("a cell at a tile's rim wakes the tiles beyond it, at its corner three", "[law][sheet]") {
    for (int y : {0, 5, 6, 25, 26, 31})
        for (int x : {0, 5, 6, 25, 26, 31}) {
            SheetState s = blank(96, 96);
            s.film_m(tile + x, tile + y) = 5e-6f;
            s.wake();
            check(s);
        }
    SheetState flooded = blank(96, 70);
    for (int j = 0; j < 70; ++j)
        for (int i = 0; i < 96; ++i) flooded.film_m(i, j) = 1e-4f;
    flooded.wake();
    CHECK(flooded.film_tiles.cells() == 96 * 96); // whole tiles, padding too
    CHECK(flooded.damp_tiles.same_as(flooded.film_tiles));
}

TEST_CASE("film is at sleepers just when waking would wake another tile", "[law][sheet]") {
    std::mt19937 random(9);
    int seen = 0;
    for (int round = 0; round < 300; ++round) {
        SheetState s = blank(65 + round % 64, 70);
        s.film_m(40, 40) = 1e-5f;
        s.wake();
        CHECK_FALSE(s.film_at_sleepers());
        s.film_m(32 + static_cast<int>(random() % 32), 32 + static_cast<int>(random() % 32)) = 1e-5f;
        SheetState woken = s;
        woken.wake();
        CHECK(s.film_at_sleepers() == !s.film_tiles.same_as(woken.film_tiles));
        seen += s.film_at_sleepers();
    }
    CHECK(seen > 50);
    CHECK(seen < 250);
}
