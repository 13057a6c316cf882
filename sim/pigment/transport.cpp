#include "pigment/transport.h"

#include "grid/rows.h"
#include "pigment/carrier_detail.h"
#include "pigment/faces_detail.h"
#include "pigment/transport_rows.h"

#include <algorithm>
#include <cmath>

namespace tidemark::pigment {
namespace {

template <class F> void for_blocks(const sheet::SheetState& s, const PigmentWorkspace& w, F&& f) {
    const int blocks = static_cast<int>(w.blocks.size());
    grid::for_rows(blocks, s.film_tiles.cells(), [&](int k) { f(k, Piece(s, w.blocks[k])); });
}

/// A tile that fell asleep keeps no depth: the slopes next to it look there.
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
        }
    w.held = tiles;
}

float worst_share(const sheet::SheetState& s, PigmentWorkspace& w, float dt_per_dx) {
    w.worst.assign(w.blocks.size(), 0.0f);
    for_blocks(s, w, [&](int k, const Piece& p) {
        for (int j = p.top; j < p.bottom; ++j) {
            const Faces faces(p, j);
            const float* film = s.film_before_m.row(j) + p.block.begin;
            w.worst[k] = std::max(w.worst[k], cfl_row(p.n, film, faces.view(), dt_per_dx));
        }
    });
    return w.worst.empty() ? 0 : *std::max_element(w.worst.begin(), w.worst.end());
}

/// The halves of a pigment's or the gum's mass, to be written.
struct Pair {
    grid::Field<float>*lower, *upper;
};
Pair pair_of(sheet::SheetState& s, std::size_t k) {
    if (k < s.pigments.size())
        return {&s.pigments[k].afloat_lower, &s.pigments[k].afloat_upper};
    return {&s.gum_lower_kg_m2, &s.gum_upper_kg_m2};
}

/// First half of a sub-step: depths, rising water, concentrations.
void look(sheet::SheetState& s, PigmentWorkspace& w, const Piece& p, float dt_per_dx, float done) {
    const int b = p.block.begin;
    for (int j = p.top; j < p.bottom; ++j) {
        const Faces faces(p, j);
        float *per_l = w.per_lower.row(j) + b, *per_u = w.per_upper.row(j) + b, *up = w.up_share.row(j) + b;
        water_row(p.n, s.film_before_m.row(j) + b, faces.view(), dt_per_dx, done,
                  {per_l, per_u, w.out_m.row(j) + b, up, w.down_share.row(j) + b});
        for (std::size_t k = 0; k < w.concentration.size(); ++k) {
            const Pair m = pair_of(s, k);
            auto& c = w.concentration[k];
            float *c_l = c.lower.row(j) + b, *c_u = c.upper.row(j) + b;
            raise_row(p.n, {up, per_l, per_u, m.lower->row(j) + b, m.upper->row(j) + b, c_l, c_u});
            for (int i = 0; i < p.n; i += tile) {
                std::uint8_t& filled = w.filled_at(k, p.block.tile_row, (b + i) / tile);
                if (!filled)
                    filled = peak_row(std::min(tile, p.n - i), c_l + i, c_u + i) > 0;
            }
        }
    }
}

/// The part of a block that has something of substance k in it or in the tiles around; empty when there is none.
Block filled_part(const PigmentWorkspace& w, std::size_t k, const Block& whole) {
    Block part{whole.tile_row, whole.end, whole.begin};
    for (int i = whole.begin; i < whole.end; i += tile) {
        bool filled = false;
        for (int t = whole.tile_row - 1; t <= whole.tile_row + 1; ++t)
            for (int c = i / tile - 1; c <= i / tile + 1; ++c)
                filled = filled || w.is_filled(k, t, c);
        if (!filled)
            continue;
        part.begin = std::min(part.begin, i), part.end = std::min(whole.end, i + tile);
    }
    return part;
}

void carry(sheet::SheetState& s, const PigmentWorkspace& w, const Block& whole, float dt_per_dx) {
    for (std::size_t k = 0; k < w.concentration.size(); ++k) {
        const Block block = filled_part(w, k, whole);
        if (block.begin >= block.end)
            continue;
        const Piece p(s, block);
        const Pair m = pair_of(s, k);
        Carrier lower(w, p, w.concentration[k].lower, true, dt_per_dx);
        Carrier upper(w, p, w.concentration[k].upper, false, dt_per_dx);
        for (int j = p.top; j < p.bottom; ++j) {
            const Faces faces(p, j);
            lower.row(j, faces.view(), m.lower->row(j) + block.begin);
            upper.row(j, faces.view(), m.upper->row(j) + block.begin);
            sink_row(p.n, w.down_share.row(j) + block.begin, m.lower->row(j) + block.begin,
                     m.upper->row(j) + block.begin);
        }
    }
}

} // namespace

TransportMoved advect(sheet::SheetState& s, PigmentWorkspace& w, double dt_s) {
    if (!s.film_tiles.any() || dt_s <= 0)
        return {};
    w.fit(s);
    list_blocks(s.film_tiles, w.blocks);
    clear_sleepers(s, w);
    const double whole = dt_s / s.geometry.cell_m;
    const double cfl = worst_share(s, w, static_cast<float>(whole));
    const int n = std::max(1, static_cast<int>(std::ceil(cfl / 0.9)));
    const float k = static_cast<float>(whole / n);
    for (int step = 0; step < n; ++step) {
        std::fill(w.filled.begin(), w.filled.end(), std::uint8_t{0});
        for_blocks(s, w, [&](int, const Piece& p) { look(s, w, p, k, static_cast<float>(step)); });
        for_blocks(s, w, [&](int, const Piece& p) { carry(s, w, p.block, k); });
    }
    return {.substeps = n, .worst_cfl = cfl};
}

} // namespace tidemark::pigment
