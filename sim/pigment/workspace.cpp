#include "pigment/workspace.h"

#include <algorithm>

namespace tidemark::pigment {

void PigmentWorkspace::fit(const sheet::SheetState& s) {
    const int nx = s.film_m.nx(), ny = s.film_m.ny();
    const std::size_t pairs = s.pigments.size() + 1;
    if (out_m.nx() == nx && out_m.ny() == ny && edges.size() == pairs)
        return;
    for (auto* f : {&per_lower, &per_upper, &out_m, &up_share, &down_share})
        f->resize(nx, ny);
    edges.resize(pairs);
    for (auto& e : edges)
        e.lower.resize(nx, 4 * grid::TileSet(nx, ny).tiles_y()), e.upper.resize(nx, e.lower.ny());
    motion.resize(s.pigments.size());
    held = grid::TileSet(nx, ny);
    tiles_x = held.tiles_x(), tiles_y = held.tiles_y();
    filled.assign(pairs * tiles_x * tiles_y, 0);
}

bool PigmentWorkspace::filled_near(std::size_t k, int t, int c) const {
    return is_filled(k, t, c, Filled::somewhere) || is_filled(k, t - 1, c, Filled::bottom) ||
           is_filled(k, t + 1, c, Filled::top) || is_filled(k, t, c - 1, Filled::right) ||
           is_filled(k, t, c + 1, Filled::left);
}

void list_blocks(const grid::TileSet& tiles, int columns, std::vector<Block>& blocks) {
    blocks.clear();
    for (int t = 0; t < tiles.tiles_y(); ++t)
        for (const grid::Span span : tiles.spans(t * grid::TileSet::size))
            for (int b = span.begin; b < span.end; b += columns)
                blocks.push_back({t, b, std::min(b + columns, span.end)});
}

} // namespace tidemark::pigment
