/// How unevenly paint lies within a cell.
///
/// Paint that follows the relief does so below a cell's width too, and an uneven layer is paler than an even one of the same
/// mass. The slope of a pigment's load with height is read off the hills that the grid carries,
///
///   m ≈ m̄ (1 + β (b - b̄)),   β = Σ Dm Db / (m̄ Σ Db²)   over a tile, least squares,
///
/// Dx what x stands out of the mean of the cells three to its left and right, so that a load that falls off evenly, as in
/// the soft edge of a stroke, is not taken for hills. It is taken to hold for those that the grid does not carry, of
/// standard deviation σ (SheetState::relief_subgrid_rms_m): the cell is seen as the mean of two halves at heights ±σ
/// (Gauss & Hermite's two points, exact to the third moment). A staining paint has β near 0; where the grid carries the
/// whole relief σ is 0.
///
/// Range   |β| σ up to 1, where the higher half is bare; cut there. Where one of the three cells is below 0.4 or above 2.5
///         of the tile's mean load it is left out of β, for it tells of edges; tiles with fewer than 64 others are taken as
///         even. That one slope holds for wide and narrow hills is our assumption: see the behaviour of washes at cells of
///         1 and 0.5 mm.
#pragma once
#include <vector>

#include "sheet/sheet_state.h"

namespace tidemark::sheet {

class Unevenness {
  public:
    explicit Unevenness(const SheetState&);
    /// β σ of every pigment at row j, column i, 0 ... ±1; nullptr where the cell is as good as even.
    const float* at(int i, int j) const {
        const std::size_t t = static_cast<std::size_t>(j / grid::TileSet::size) * tiles_x_ + i / grid::TileSet::size;
        return uneven_.empty() || !uneven_[t] ? nullptr : share_.data() + t * pigments_;
    }

  private:
    std::size_t tiles_x_ = 0, pigments_ = 0;
    std::vector<float> share_;
    std::vector<char> uneven_; ///< by tile; empty: nowhere
};

} // namespace tidemark::sheet
