/// The felt mark of a sheet: a smooth random surface.
///
/// White noise on a lattice of half a correlation length, spread with a Gaussian so that the surface's own
/// correlation falls to 1/e at `corr_m`. The lattice belongs to the paper, not to the grid, so the same seed gives
/// the same hills at any cell size. What is finer than `cells_min` cells cannot be carried by the grid: the surface
/// is then made with that length and its height is cut to the share of variance that a surface of correlation
/// `corr_m` keeps after smoothing to it, rms · corr / cells_min·cell; the rest is returned as sub-grid roughness.
///
/// Range   rms 0 to 200 µm, corr 0.05 to 10 mm (materials/paper.h), else refused (grid/within.h). Slopes rms/corr below
///         0.3: the film over it is thin (water/film.h).
#pragma once
#include <cstdint>

#include "grid/field.h"

namespace tidemark::sheet {

/// Writes cells [0, nx) × [0, ny) of `relief`; mean 0 over them, padding 0. Returns the rms left to the sub-grid, m.
double make_relief(grid::Field<float>& relief, int nx, int ny, double cell_m, double rms_m, double corr_m,
                   std::uint64_t seed);

} // namespace tidemark::sheet
