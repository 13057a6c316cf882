/// Scratch that transport and the sweep over the sheet keep between steps, so that no step allocates.
///
/// Nothing in it is state: a new workspace gives the same bytes as a used one.
#pragma once
#include "pigment/grain.h"
#include "sheet/sheet_state.h"

#include <array>
#include <cstdint>
#include <utility>
#include <vector>

namespace tidemark::pigment {

/// Rows of one row of tiles, columns [begin, end).
struct Block {
    static constexpr int columns = 6 * grid::TileSet::size; ///< at most, where rows are to stay in the L1 cache
    int tile_row = 0, begin = 0, end = 0;
};

/// Concentrations (kg/m³) in the lower and upper half of the film, of one pigment or of the gum, at the first two and
/// the last two rows of every row of tiles: rows 4t ... 4t + 3. They are what the rows of tiles above and below see
/// of it while its masses change.
struct EdgeRows {
    grid::Field<float> lower, upper;
};

/// Where in a tile there is any of a substance afloat: somewhere, and along the sides. Through a side without any,
/// nothing passes to the next tile in a sub-step.
enum Filled : std::uint8_t { somewhere = 1, top = 2, bottom = 4, left = 8, right = 16 };

/// Cells that more water runs through in a sub-step than they hold (through.h).
struct ThroughFlow {
    struct Source {
        int i = 0, j = 0;
        int cell = -1;     ///< in cells, if it is one of them
        float water_m = 0; ///< in one sub-step
    };
    struct Cell {
        int i = 0, j = 0;
        float lower_m = 0, upper_m = 0; ///< depths of the halves before anything comes
        float in_m = 0, out_m = 0;
        std::array<Source, 4> from{};
        int sources = 0;
    };
    std::vector<Cell> cells;                      ///< by row, then column
    std::vector<int> row_begin;                   ///< of the cells of a row; one more than there are rows
    std::vector<int> order;                       ///< of cells, along the flow
    bool rings = false;                           ///< some water runs in a ring, so no order is perfect
    std::vector<std::vector<float>> lower, upper; ///< by substance and cell, kg/m³: what leaves
};

struct PigmentWorkspace {
    std::vector<Block> blocks, strips;       ///< awake, remade every step; a strip is as wide as it can be
    grid::TileSet held;                      ///< tiles whose scratch is not zero
    grid::Field<float> per_lower, per_upper; ///< 1/m: one over the depth that leaves the half; 0 when dry, next to nothing in through-flow
    grid::Field<float> out_m;                ///< depth of water that leaves the cell in one sub-step
    grid::Field<float> up_share, down_share; ///< share of one half's water that the other takes in a sub-step
    std::vector<std::vector<std::pair<int, int>>> marked; ///< by block: rows and columns of cells of through-flow
    ThroughFlow through;
    std::vector<EdgeRows> edges;             ///< pigments in order, the gum last
    std::vector<GrainMotion> motion;         ///< one a pigment
    std::vector<float> worst;                ///< by block
    std::vector<std::uint8_t> filled;        ///< by substance, tile row and tile column: Filled, 0 when empty
    int tiles_x = 0, tiles_y = 0;
    std::uint8_t& filled_at(std::size_t k, int tile_row, int tile_column) {
        return filled[(k * tiles_y + tile_row) * tiles_x + tile_column];
    }
    bool is_filled(std::size_t k, int tile_row, int tile_column, Filled where) const { ///< false off the sheet
        return tile_row >= 0 && tile_row < tiles_y && tile_column >= 0 && tile_column < tiles_x &&
               (filled[(k * tiles_y + tile_row) * tiles_x + tile_column] & where) != 0;
    }
    /// Whether there is something of it in a tile or at the sides of those around that face it.
    bool filled_near(std::size_t k, int tile_row, int tile_column) const;
    void fit(const sheet::SheetState&); ///< sizes everything for this sheet; free when it already fits
};

/// Blocks of the awake tiles, at most so wide, in a fixed order.
void list_blocks(const grid::TileSet&, int columns, std::vector<Block>&);

} // namespace tidemark::pigment
