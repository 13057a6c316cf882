#include "sheet/rim.h"

namespace tidemark::sheet {
namespace {

constexpr int size = grid::TileSet::size;

bool is_outer(const SheetState& s, const grid::TileSet& part, int ti, int tj) {
    return ti >= 0 && tj >= 0 && ti < part.tiles_x() && tj < part.tiles_y() && !part.awake(ti, tj) &&
           s.film_tiles.awake(ti, tj);
}

} // namespace

std::vector<RimFace> rim_of(SheetState& s, const grid::TileSet& part) {
    std::vector<RimFace> rim;
    const auto add = [&](RimFace f) {
        f.given_m2_s = f.flux(s);
        rim.push_back(f);
    };
    for (int tj = 0; tj < part.tiles_y(); ++tj)
        for (int ti = 0; ti < part.tiles_x(); ++ti) {
            if (!part.awake(ti, tj))
                continue;
            const int i = ti * size, j = tj * size;
            for (int n = 0; n < size; ++n) {
                if (is_outer(s, part, ti - 1, tj))
                    add({.i = i - 1, .j = j + n, .across = true, .outer_first = true});
                if (is_outer(s, part, ti + 1, tj))
                    add({.i = i + size - 1, .j = j + n, .across = true});
                if (is_outer(s, part, ti, tj - 1))
                    add({.i = i + n, .j = j - 1, .outer_first = true});
                if (is_outer(s, part, ti, tj + 1))
                    add({.i = i + n, .j = j + size - 1});
            }
        }
    return rim;
}

} // namespace tidemark::sheet
