#include "pigment/transport.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "grid/rows.h"
#include "pigment/transport_rows.h"

namespace tidemark::pigment {
namespace {

constexpr int tile = grid::TileSet::size;
using Buffer = std::array<float, Block::columns + 4>; ///< cell i of a block at [i + 1]

/// One block and its rows [top, bottom).
struct Piece {
    const sheet::SheetState& s;
    Block block;
    int n, top, bottom;
    Piece(const sheet::SheetState& sheet, const Block& b)
        : s(sheet), block(b), n(b.end - b.begin), top(b.tile_row * tile),
          bottom(std::min(top + tile, sheet.film_m.ny())) {}
};

/// Copies the fluxes through the faces around row j, closed towards sleeping tiles.
struct Faces {
    Buffer left, above, below;
    RowFaces view() const { return {left.data() + 1, above.data() + 1, below.data() + 1}; }

    Faces(const Piece& p, int j) {
        const auto& tiles = p.s.film_tiles;
        const int b = p.block.begin, e = p.block.end, t = p.block.tile_row;
        const float* qx = p.s.flux_x_m2_s.row(j) + b;
        for (int i = 0; i <= p.n; ++i) left[i + 1] = qx[i - 1];
        if (b == 0 || !tiles.awake(b / tile - 1, t)) left[1] = 0;
        if ((e + tile - 1) / tile >= tiles.tiles_x() || !tiles.awake(e / tile, t)) left[p.n + 1] = 0;
        std::copy_n(p.s.flux_y_m2_s.row(j - 1) + b, p.n, above.data() + 1);
        std::copy_n(p.s.flux_y_m2_s.row(j) + b, p.n, below.data() + 1);
        if (j == p.top) close(p, t - 1, above);
        if (j == p.bottom - 1) close(p, t + 1, below);
    }

  private:
    static void close(const Piece& p, int tile_row, Buffer& faces) {
        const auto& tiles = p.s.film_tiles;
        for (int i = 0; i < p.n; i += tile) {
            if (tile_row >= 0 && tile_row < tiles.tiles_y() && tiles.awake((p.block.begin + i) / tile, tile_row))
                continue;
            std::fill_n(faces.data() + 1 + i, std::min(tile, p.n - i), 0.0f);
        }
    }
};

template <class F> void for_blocks(const sheet::SheetState& s, const PigmentWorkspace& w, F&& f) {
    const int blocks = static_cast<int>(w.blocks.size());
    grid::for_rows(blocks, s.film_tiles.cells(), [&](int k) { f(k, Piece(s, w.blocks[k])); });
}

/// A tile that fell asleep keeps no depth: the slopes next to it look there.
void clear_sleepers(const sheet::SheetState& s, PigmentWorkspace& w) {
    const auto& tiles = s.film_tiles;
    for (int tj = 0; tj < tiles.tiles_y(); ++tj)
        for (int ti = 0; ti < tiles.tiles_x(); ++ti) {
            if (!w.held.awake(ti, tj) || tiles.awake(ti, tj)) continue;
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
struct Pair { grid::Field<float>*lower, *upper; };
Pair pair_of(sheet::SheetState& s, std::size_t k) {
    if (k < s.pigments.size()) return {&s.pigments[k].afloat_lower, &s.pigments[k].afloat_upper};
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
            raise_row(p.n, up, per_l, per_u, m.lower->row(j) + b, m.upper->row(j) + b, c.lower.row(j) + b,
                      c.upper.row(j) + b);
        }
    }
}

/// Second half of a sub-step for one half of one substance: fluxes of the block, row by row.
class Carrier {
  public:
    Carrier(const PigmentWorkspace& w, const Piece& p, const grid::Field<float>& c, const grid::Field<float>& per,
            float share)
        : w_(w), p_(p), c_(c), per_(per), share_(share) {
        down_.fill(0), down_above_.fill(0), up_.fill(0);
        if (p.top > 0) slope_y(p.top - 1, down_above_, unused_);
        slope_y(p.top, down_, up_);
    }
    /// Rows must come in order from the top.
    void row(int j, const RowFaces& f, float scale, float* mass) {
        if (j == p_.top) flux_row(p_.n, f.above, down_above_.data() + 1, up_.data() + 1, above_.data() + 1);
        next_up_.fill(0);
        if (j + 1 < p_.s.film_m.ny()) slope_y(j + 1, next_down_, next_up_);
        flux_row(p_.n, f.below, down_.data() + 1, next_up_.data() + 1, below_.data() + 1);
        slope_x(j);
        flux_row(p_.n + 1, f.left, right_.data(), left_.data() + 1, x_.data() + 1);
        give_row(p_.n, x_.data() + 1, above_.data() + 1, below_.data() + 1, scale, mass);
        std::swap(above_, below_);
        std::swap(down_, next_down_);
    }

  private:
    void slope_y(int j, Buffer& far_face, Buffer& near_face) {
        const int b = p_.block.begin;
        slope_row(p_.n, {c_.row(j) + b, c_.row(j - 1) + b, c_.row(j + 1) + b, per_.row(j) + b, per_.row(j - 1) + b,
                         per_.row(j + 1) + b, w_.out_m.row(j) + b, share_},
                  far_face.data() + 1, near_face.data() + 1);
    }
    void slope_x(int j) {
        const float *c = c_.row(j) + p_.block.begin - 1, *per = per_.row(j) + p_.block.begin - 1;
        slope_row(p_.n + 2, {c, c - 1, c + 1, per, per - 1, per + 1, w_.out_m.row(j) + p_.block.begin - 1, share_},
                  right_.data(), left_.data());
    }

    const PigmentWorkspace& w_;
    const Piece& p_;
    const grid::Field<float>&c_, &per_;
    float share_;
    Buffer down_above_, down_, up_, next_down_, next_up_, unused_, above_, below_, right_, left_, x_;
};

void carry(sheet::SheetState& s, const PigmentWorkspace& w, const Piece& p, float dt_per_dx) {
    const int b = p.block.begin;
    for (std::size_t k = 0; k < w.concentration.size(); ++k) {
        const Pair m = pair_of(s, k);
        Carrier lower(w, p, w.concentration[k].lower, w.per_lower, lower_share);
        Carrier upper(w, p, w.concentration[k].upper, w.per_upper, upper_share);
        for (int j = p.top; j < p.bottom; ++j) {
            const Faces faces(p, j);
            lower.row(j, faces.view(), lower_share * dt_per_dx, m.lower->row(j) + b);
            upper.row(j, faces.view(), upper_share * dt_per_dx, m.upper->row(j) + b);
            sink_row(p.n, w.down_share.row(j) + b, m.lower->row(j) + b, m.upper->row(j) + b);
        }
    }
}

} // namespace

TransportMoved advect(sheet::SheetState& s, PigmentWorkspace& w, double dt_s) {
    if (!s.film_tiles.any() || dt_s <= 0) return {};
    w.fit(s);
    list_blocks(s.film_tiles, w.blocks);
    clear_sleepers(s, w);
    const double whole = dt_s / s.geometry.cell_m;
    const double cfl = worst_share(s, w, static_cast<float>(whole));
    const int n = std::max(1, static_cast<int>(std::ceil(cfl / 0.9)));
    const float k = static_cast<float>(whole / n);
    for (int step = 0; step < n; ++step) {
        for_blocks(s, w, [&](int, const Piece& p) { look(s, w, p, k, static_cast<float>(step)); });
        for_blocks(s, w, [&](int, const Piece& p) { carry(s, w, p, k); });
    }
    return {.substeps = n, .worst_cfl = cfl};
}

} // namespace tidemark::pigment
