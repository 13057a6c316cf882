// Which tiles have something to do: each cell speaks for the tiles within its margin. Tiles are looked at in three
// bands, whose upper and lower ones may wake the tiles above and below; a band is left as soon as its answer is known.
#include "grid/rows.h"
#include "sheet/sheet_state.h"

#include <array>

namespace tidemark::sheet {
namespace {

constexpr int tile = grid::TileSet::size;
constexpr int margin = wake_margin;

struct Quiet {
    double resting_kg_m2, apart_kg_m2; ///< nothing to do for air and fibre while a half is this near the room's
};

/// Adds a row of a tile: where there is film, and where film or moisture.
TIDEMARK_CLONES void look_at_row(int n,
                                 double resting,
                                 double apart,
                                 const float* __restrict film,
                                 const double* __restrict front,
                                 const double* __restrict back,
                                 std::int32_t* __restrict has_film,
                                 std::int32_t* __restrict has_damp) {
    for (int i = 0; i < n; ++i) {
        const std::int32_t wet = film[i] > 0;
        const double f = front[i] - resting, b = back[i] - resting;
        const std::int32_t moist = (f > apart) | (f < -apart) | (b > apart) | (b < -apart);
        has_film[i] |= wet;
        has_damp[i] |= wet | moist;
    }
}

bool any(const std::int32_t* flags, int begin, int end) {
    std::int32_t sum = 0;
    for (int i = begin; i < end; ++i)
        sum |= flags[i];
    return sum != 0;
}

/// Of one band: whether the left margin, any cell, and the right margin have it.
struct Sides {
    bool left = false, any = false, right = false;
    bool all() const { return left && any && right; }
};

/// `n` cells of the tile are on the sheet, and `beyond` more to its right, if any.
Sides sides_of(const std::int32_t* flags, int n, int beyond) {
    // On the right rim of the sheet there is no tile to wake.
    const int begin = tile - margin, end = beyond > 0 ? n : begin;
    return {.left = any(flags, 0, std::min(margin, n)),
            .any = any(flags, 0, n),
            .right = begin >= end || any(flags, begin, end)};
}

struct Band {
    Sides film, damp;
};

Band look_at_band(const SheetState& s, const Quiet& quiet, int i, int j_begin, int j_end) {
    alignas(64) std::int32_t film[tile] = {}, damp[tile] = {};
    const int n = std::min(tile, s.geometry.nx - i), beyond = s.geometry.nx - i - tile;
    Band band;
    for (int j = j_begin; j < j_end; ++j) {
        look_at_row(n, quiet.resting_kg_m2, quiet.apart_kg_m2, s.film_m.row(j) + i, s.front_kg_m2.row(j) + i,
                    s.back_kg_m2.row(j) + i, film, damp);
        if ((j - j_begin) % 4 != 0 && j + 1 < j_end)
            continue;
        band = {sides_of(film, n, beyond), sides_of(damp, n, beyond)};
        if (band.film.all())
            break;
    }
    return band;
}

using Bands = std::array<Band, 3>; ///< top margin, middle, bottom margin

Bands look_at_tile(const SheetState& s, const Quiet& quiet, int ti, int tj) {
    const int top = tj * tile, ny = s.geometry.ny, end = std::min(top + tile, ny);
    const int upper = std::min(top + margin, end), lower = std::clamp(end, upper, top + tile - margin);
    const int reaching = ny > top + tile ? end : lower; // on the lower rim there is no tile to wake
    Bands bands{look_at_band(s, quiet, ti * tile, top, upper), look_at_band(s, quiet, ti * tile, upper, lower),
                look_at_band(s, quiet, ti * tile, lower, reaching)};
    const Band rest = look_at_band(s, quiet, ti * tile, reaching, end);
    const auto join = [](Sides& to, const Sides& from) {
        to.left |= from.left, to.any |= from.any, to.right |= from.right;
    };
    join(bands[1].film, rest.film), join(bands[1].damp, rest.damp);
    return bands;
}

/// Whether the tile is awake by what it and its neighbours hold.
bool awake(const std::vector<Bands>& seen, int tx, int ty, int ti, int tj, Sides Band::* what) {
    const auto side = [&](int i, int j, int band) -> Sides {
        return i >= 0 && j >= 0 && i < tx && j < ty ? seen[static_cast<std::size_t>(j) * tx + i][band].*what : Sides{};
    };
    const auto column = [&](int i, bool Sides::* part) {
        bool on = side(i, tj - 1, 2).*part || side(i, tj + 1, 0).*part;
        for (int band = 0; band < 3; ++band)
            on = on || side(i, tj, band).*part;
        return on;
    };
    return column(ti - 1, &Sides::right) || column(ti, &Sides::any) || column(ti + 1, &Sides::left);
}

Quiet quiet_of(const SheetState& s) {
    return {half_equilibrium_kg_m2(s.paper, s.room.humidity), 0.001 * 0.5 * s.paper.basis_kg_m2};
}

/// Whether the tile beside or across a corner is on the sheet and asleep.
bool sleeps(const grid::TileSet& tiles, int ti, int tj) {
    return ti >= 0 && tj >= 0 && ti < tiles.tiles_x() && tj < tiles.tiles_y() && !tiles.awake(ti, tj);
}

/// Whether film is within the margin of a sleeping neighbour.
bool reaches_a_sleeper(const grid::TileSet& tiles, int ti, int tj, const Bands& bands) {
    for (int dj = -1; dj <= 1; ++dj) {
        const auto has = [&](bool Sides::* part) {
            if (dj != 0) return bands[dj + 1].film.*part;
            return bands[0].film.*part || bands[1].film.*part || bands[2].film.*part;
        };
        if ((sleeps(tiles, ti - 1, tj + dj) && has(&Sides::left)) || (sleeps(tiles, ti, tj + dj) && has(&Sides::any)) ||
            (sleeps(tiles, ti + 1, tj + dj) && has(&Sides::right)))
            return true;
    }
    return false;
}

} // namespace

bool SheetState::film_at_sleepers() const {
    const Quiet quiet = quiet_of(*this);
    for (int tj = 0; tj < film_tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < film_tiles.tiles_x(); ++ti)
            if (film_tiles.awake(ti, tj) && film_tiles.beside_a_sleeper(ti, tj) &&
                reaches_a_sleeper(film_tiles, ti, tj, look_at_tile(*this, quiet, ti, tj)))
                return true;
    return false;
}

void SheetState::wake(bool sleep) {
    const int tx = film_tiles.tiles_x(), ty = film_tiles.tiles_y();
    const Quiet quiet = quiet_of(*this);
    std::vector<Bands> seen(static_cast<std::size_t>(tx) * ty);
    grid::for_rows(ty, static_cast<long>(geometry.nx) * geometry.ny, [&](int tj) {
        for (int ti = 0; ti < tx; ++ti)
            seen[static_cast<std::size_t>(tj) * tx + ti] = look_at_tile(*this, quiet, ti, tj);
    });
    for (int tj = 0; tj < ty; ++tj)
        for (int ti = 0; ti < tx; ++ti) {
            film_tiles.set(ti, tj, awake(seen, tx, ty, ti, tj, &Band::film));
            damp_tiles.set(ti, tj, awake(seen, tx, ty, ti, tj, &Band::damp));
        }
    film_tiles.rebuild();
    damp_tiles.rebuild();
    if (sleep)
        return;
    film_tiles.set_all(film_tiles.any());
    damp_tiles.set_all(true);
    film_tiles.rebuild();
    damp_tiles.rebuild();
}

} // namespace tidemark::sheet
