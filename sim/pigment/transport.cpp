#include "pigment/transport.h"

#include "grid/rows.h"
#include "grid/within.h"
#include "pigment/faces_detail.h"
#include "pigment/substep.h"
#include "pigment/through.h"
#include "pigment/transport_rows.h"

#include <algorithm>
#include <cmath>

namespace tidemark::pigment {
namespace {

constexpr int most_substeps = 2;

template <class F> void for_blocks(const sheet::SheetState& s, const std::vector<Block>& blocks, F&& f) {
    const int n = static_cast<int>(blocks.size());
    grid::for_rows(n, s.film_tiles.cells(), [&](int k) { f(k, blocks[k]); });
}

/// A tile that fell asleep keeps no depth, as the slopes next to it look there, and counts as empty.
void clear_sleepers(const sheet::SheetState& s, PigmentWorkspace& w) {
    const auto& tiles = s.film_tiles;
    for (int tj = 0; tj < tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < tiles.tiles_x(); ++ti) {
            if (!w.held.awake(ti, tj) || tiles.awake(ti, tj))
                continue;
            const int b = ti * tile, n = std::min(tile, s.film_m.nx() - b);
            for (int j = tj * tile; j < std::min((tj + 1) * tile, s.film_m.ny()); ++j) {
                std::fill_n(w.per_lower.row(j) + b, n, 0.0f);
                std::fill_n(w.per_upper.row(j) + b, n, 0.0f);
            }
            for (std::size_t k = 0; k < w.edges.size(); ++k)
                w.filled_at(k, tj, ti) = 0;
        }
    w.held = tiles;
}

/// A tile passes pigment on to those at its sides.
void expect_neighbours(sheet::SheetState& s, const PigmentWorkspace& w) {
    for (std::size_t k = 0; k < s.pigments.size(); ++k) {
        grid::TileSet& tiles = s.pigments[k].tiles;
        for (int tj = 0; tj < tiles.tiles_y(); ++tj)
            for (int ti = 0; ti < tiles.tiles_x(); ++ti)
                if (!tiles.awake(ti, tj) && w.filled_near(k, tj, ti))
                    tiles.set(ti, tj, true);
    }
}

float worst_share(const sheet::SheetState& s, PigmentWorkspace& w, float dt_per_dx) {
    w.worst.assign(w.blocks.size(), 0.0f);
    for_blocks(s, w.blocks, [&](int k, const Block& b) {
        const Piece p(s, b);
        for (int j = p.top; j < p.bottom; ++j) {
            const Faces faces(p, j);
            const float* film = s.film_before_m.row(j) + p.block.begin;
            w.worst[k] = std::max(w.worst[k], cfl_row(p.n, film, faces.view(), dt_per_dx));
        }
    });
    return w.worst.empty() ? 0 : *std::max_element(w.worst.begin(), w.worst.end());
}

} // namespace

TransportMoved advect(sheet::SheetState& s, PigmentWorkspace& w, double dt_s) {
    grid::within("dt_s", dt_s, grid::step_of_time);
    if (!s.film_tiles.any() || dt_s <= 0)
        return {};
    w.fit(s);
    list_blocks(s.film_tiles, Block::columns, w.blocks);
    list_blocks(s.film_tiles, s.film_m.nx(), w.strips);
    w.marked.resize(w.blocks.size());
    clear_sleepers(s, w);
    const double whole = dt_s / s.geometry.cell_m;
    const double cfl = worst_share(s, w, static_cast<float>(whole));
    const int n = static_cast<int>(std::clamp(std::ceil(cfl / 0.9), 1.0, static_cast<double>(most_substeps)));
    const float k = static_cast<float>(whole / n);
    for (int step = 0; step < n; ++step) {
        const float done = static_cast<float>(step);
        for_blocks(s, w.blocks, [&](int number, const Block&) { look_at_water(s, w, number, k, done); });
        find_through_flow(s, w, k, done);
        for_blocks(s, w.blocks, [&](int, const Block& b) { look(s, w, b); });
        expect_neighbours(s, w);
        for_blocks(s, w.strips, [&](int, const Block& b) { carry(s, w, b, k); });
    }
    return {.substeps = n, .worst_cfl = cfl};
}

} // namespace tidemark::pigment
