/// Solves one step's increments of depth and pressure on the awake part of the sheet.
///
///   de + Σ_f c_f (dp - dp_nb) = r1                 c = dt M / dx²
///   dp = A de - G Σ de_nb                          A = g cos α + 4G + dψ, G = γ/(ρ dx²)
///
/// Units: de, r1 m; dp m²/s²; c s²/m; A, G m/s².
///
/// Geometric multigrid, cells halved level by level, 2 × 2 systems relaxed in red-black order (both unknowns of a
/// cell together), residuals averaged down, corrections added bilinearly where a cell has an open face. Coarse cells
/// that are partly wet weigh their equation with the wet share `w` and count their wet/dry faces, else a pinned bead
/// is solved two to ten times slower. Beyond the sheet, and in closed cells, de = 0. Where the coarse levels are of
/// no help a cycle ends with sweeps over those few cells alone (stubborn.h); where they do harm cycles go on as directions
/// of a minimal residual (minimal_residual.h).
///
/// A max over cells is the only reduction, so the result does not depend on the number of threads. Fields are parted
/// by columns (parted.h); the caller hands over rows in their natural order.
#pragma once
#include "grid/tiles.h"
#include "water/minimal_residual.h"
#include "water/multigrid_rows.h"
#include "water/parted.h"
#include "water/stubborn.h"

#include <vector>

namespace tidemark::water {

struct Level {
    int nx = 0, ny = 0, block = 32;
    float G = 0;           ///< γ/(ρ dx²) of this level, m/s²
    PartedField cx, cy;    ///< faces: (i, j) lies between cells i and i+1, rows j and j+1
    PartedField diagonal;  ///< A, m/s²
    PartedField stiffness; ///< g cos α + dψ, A without capillarity (levels > 0)
    PartedField wet, lone; ///< share of wet fine cells; their wet/dry fine faces (levels > 0)
    PartedField de, dp, r1, r2;
    std::vector<grid::Span> spans;
    std::vector<int> first; ///< spans of row j: [first[j], first[j+1])
    long cells = 0;
    const grid::TileSet* apart = nullptr; ///< tiles whose residual is of no account (finest level)
};

/// Columns [begin, end) of row j of the finest level, in their natural order.
struct FineRow {
    const float *cx, *cy, *diagonal, *r1;
};

class Multigrid {
  public:
    Multigrid() = default;
    Multigrid(int nx, int ny, double G_fine); ///< whole tiles, else InternalError
    void set_spans(const grid::TileSet&, bool slept = true); ///< slept: whether a tile has fallen asleep
    void still(int tile_i, int tile_j); ///< a tile that sleeps from now on, as set_spans(…, true) does for all
    void take(int j, const FineRow&, int begin, int end); ///< begin and end even
    /// In these tiles any residual will do, for they are solved again; null: everywhere it counts. Kept by the caller.
    void set_apart(const grid::TileSet* tiles) { levels_.front().apart = tiles; }
    void coarsen();                                       ///< after every row was taken
    /// Where a solve starts from: de ← factor (de + answered) - left. `left`: what the depths were moved by beyond the
    /// last de; `answered`: the same before that, which the last de has undone. Every awake row, then guess_pressures().
    void guess_row(int j, float factor, const float* answered, const float* left, int begin, int end);
    void guess_pressures();
    /// Cycles from the guess until the largest |r1| is below `tolerance` (m, as depth). Returns the residual reached,
    /// NaN if there is one anywhere; `cycles` the count.
    double solve(double tolerance, int cycles_max, int& cycles);
    void pressure_row(int j, float* dp, int begin, int end); ///< increments, in their natural order
    void depth_row(int j, float* de, int begin, int end);
    /// The last increments, a warm guess (grid/archive.h). All else is made anew in each step and each solve.
    template <class A, class Self> static void archive(A& a, Self& self) {
        auto& [levels, row_buffer, stubborn, minimal, sweeps] = self;
        a(levels.front().de, levels.front().dp);
    }

  private:
    std::vector<Level> levels_;
    std::vector<std::vector<float>> row_buffer_; ///< by thread
    Stubborn stubborn_;
    MinimalResidual minimal_;
    int sweeps_ = 1; ///< over the finest level, before and after its coarse correction
    float* buffer(std::size_t floats);
    void coarsen_row(int level, int j, int begin, int end);
    void relax(int level, bool from_zero);
    double restrict_to(int level);
    float restrict_block(int level, int block);
    void relax_stubborn(double worst);
    void prolong(int level);
    void more_sweeps();
    double cycle(int level, bool from_zero);
    double go_on(double residual, double tolerance, int cycles_max, int& cycles);
};

} // namespace tidemark::water
