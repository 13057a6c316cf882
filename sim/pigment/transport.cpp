#include "pigment/transport.h"

#include "grid/rows.h"
#include "pigment/transport_rows.h"

#include <algorithm>
#include <array>
#include <cmath>

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

/// The fluxes through the faces around row j of a block. Towards sleeping tiles and the border of the sheet they are
/// closed, whatever the field still says there; only rows that need it are copied.
class Faces {
  public:
    Faces(const Piece& p, int j)
        : view_{p.s.flux_x_m2_s.row(j) + p.block.begin - 1, p.s.flux_y_m2_s.row(j - 1) + p.block.begin,
                p.s.flux_y_m2_s.row(j) + p.block.begin} {
        close_ends(p);
        if (j == p.top)
            view_.above = closed(p, p.block.tile_row - 1, view_.above, above_);
        if (j == p.bottom - 1)
            view_.below = closed(p, p.block.tile_row + 1, view_.below, below_);
    }
    Faces(const Faces&) = delete;
    Faces& operator=(const Faces&) = delete;
    const RowFaces& view() const { return view_; }

  private:
    static bool open(const Piece& p, int tile_column, int tile_row) {
        const auto& tiles = p.s.film_tiles;
        return tile_column >= 0 && tile_row >= 0 && tile_column < tiles.tiles_x() && tile_row < tiles.tiles_y() &&
               tiles.awake(tile_column, tile_row);
    }
    void close_ends(const Piece& p) {
        const int t = p.block.tile_row, b = p.block.begin / tile, e = (p.block.end + tile - 1) / tile;
        const bool left_shut = view_.left[0] != 0 && !open(p, b - 1, t);
        const bool right_shut = view_.left[p.n] != 0 && !open(p, e, t);
        if (!left_shut && !right_shut)
            return;
        std::copy_n(view_.left, p.n + 1, left_.data());
        if (left_shut)
            left_[0] = 0;
        if (right_shut)
            left_[p.n] = 0;
        view_.left = left_.data();
    }
    static const float* closed(const Piece& p, int tile_row, const float* faces, Buffer& copy) {
        std::copy_n(faces, p.n, copy.data());
        for (int i = 0; i < p.n; i += tile)
            if (!open(p, (p.block.begin + i) / tile, tile_row))
                std::fill_n(copy.data() + i, std::min(tile, p.n - i), 0.0f);
        return copy.data();
    }
    RowFaces view_;
    Buffer left_, above_, below_;
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

/// Face values of one row of cells of a block; cleared where there is no row, behind a closed face.
struct FaceBuffer {
    Buffer far, near, heft;
    void clear() { far.fill(0), near.fill(0), heft.fill(0); }
    FaceRow at(int cell) { return {far.data() + 1 + cell, near.data() + 1 + cell, heft.data() + 1 + cell}; }
};

/// Second half of a sub-step for one half of one substance: fluxes of the block, row by row.
class Carrier {
  public:
    Carrier(const PigmentWorkspace& w, const Piece& p, const grid::Field<float>& c, bool lower, float dt_per_dx)
        : w_(w), p_(p), c_(c), per_(lower ? w.per_lower : w.per_upper), share_(lower ? lower_share : upper_share),
          scale_(share_ * dt_per_dx) {
        if (p.top > 0)
            slope_y(p.top - 1, *row_);
        else
            row_->clear();
        slope_y(p.top, *next_);
    }
    /// Rows must come in order from the top.
    void row(int j, const RowFaces& f, float* mass) {
        if (j == p_.top)
            flux_row(p_.n, f.above, scale_, row_->at(0), next_->at(0), above_.data());
        std::swap(row_, next_);
        if (j + 1 < p_.s.film_m.ny())
            slope_y(j + 1, *next_);
        else
            next_->clear();
        flux_row(p_.n, f.below, scale_, row_->at(0), next_->at(0), below_.data());
        slope_x(j);
        flux_row(p_.n + 1, f.left, scale_, x_.at(-1), x_.at(0), across_.data());
        give_row(p_.n, across_.data(), above_.data(), below_.data(), mass);
        std::swap(above_, below_);
    }

  private:
    HalfRow around(const float* c, const float* per, std::ptrdiff_t step, int j, int i) const {
        return {c,
                c - step,
                c + step,
                per,
                per - step,
                per + step,
                w_.out_m.row(j) + i,
                p_.s.film_before_m.row(j) + i,
                share_};
    }
    void slope_y(int j, FaceBuffer& out) {
        const int b = p_.block.begin;
        slope_row(p_.n, around(c_.row(j) + b, per_.row(j) + b, c_.stride(), j, b), out.at(0));
    }
    void slope_x(int j) {
        const int b = p_.block.begin - 1;
        slope_row(p_.n + 2, around(c_.row(j) + b, per_.row(j) + b, 1, j, b), x_.at(-1));
    }

    const PigmentWorkspace& w_;
    const Piece& p_;
    const grid::Field<float>&c_, &per_;
    float share_, scale_;
    FaceBuffer one_, other_, x_;
    FaceBuffer *row_ = &one_, *next_ = &other_;
    Buffer above_, below_, across_;
};

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
