/// The piece of the sheet one thread carries at a time, and the faces around its rows. Private to the room.
#pragma once
#include "pigment/transport_rows.h"
#include "pigment/workspace.h"
#include "sheet/sheet_state.h"

#include <algorithm>
#include <array>

namespace tidemark::pigment {

constexpr int tile = grid::TileSet::size;
using Buffer = std::array<float, Block::columns + 4>; ///< a row of a block and a little more

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

} // namespace tidemark::pigment
