/// Solves one step's increments of depth and pressure on the awake part of the sheet.
///
///   de + Σ_f c_f (dp - dp_nb) + Σ_f tilt terms = r1        c = dt M / dx²
///   dp = A de - G Σ de_nb                                  A = g cos α + 4G + dψ, G = γ/(ρ dx²)
///
/// Geometric multigrid, cells halved level by level, 2 × 2 systems relaxed in red-black order (both unknowns of a
/// cell together), residuals averaged down, corrections added bilinearly where a cell has an open face. Coarse cells
/// that are partly wet weigh their equation with the wet share `w` and count their wet/dry faces, else a pinned bead
/// is solved two to ten times slower. Beyond the sheet, and in closed cells, de = 0.
///
/// Tilt terms: a face whose flux depends on its upwind depth carries a (m/s · dt/dx); it adds a·de of the upwind
/// cell. A max over cells is the only reduction, so the result does not depend on the number of threads.
#pragma once
#include "grid/field.h"
#include "grid/tiles.h"

#include <cstdint>
#include <vector>

namespace tidemark::water {

using grid::Field;

struct Level {
    int nx = 0, ny = 0, block = 32;
    float G = 0;                 ///< γ/(ρ dx²) of this level
    Field<float> cx, cy, ax, ay; ///< faces: (i, j) lies between cells i and i+1, rows j and j+1
    Field<float> diagonal;       ///< A
    Field<float> stiffness;      ///< g cos α + dψ, A without capillarity (levels > 0)
    Field<float> wet, lone;      ///< share of wet fine cells; their wet/dry fine faces (levels > 0)
    Field<float> de, dp, r1, r2;
    std::vector<grid::Span> spans;
    std::vector<int> first; ///< spans of row j: [first[j], first[j+1])
    long cells = 0;
};

class Multigrid {
  public:
    Multigrid() = default;
    Multigrid(int nx, int ny, double G_fine);
    void set_spans(const grid::TileSet&);
    Level& fine() { return levels_.front(); }
    void coarsen(bool tilted); ///< after cx, cy, ax, ay, diagonal of the fine level were written
    /// Cycles until the largest |r1| is below `tolerance` (m). Returns the residual reached; `cycles` the count.
    double solve(double tolerance, int cycles_max, bool tilted, bool warm, int& cycles);

  private:
    std::vector<Level> levels_;
    std::vector<std::int32_t> parity_[2];
    std::vector<std::vector<float>> row_buffer_;
    void relax(int level, bool tilted, bool from_zero);
    double restrict_to(int level, bool tilted);
    void prolong(int level);
    double cycle(int level, bool tilted, bool from_zero);
    double largest_residual(bool tilted);
};

} // namespace tidemark::water
