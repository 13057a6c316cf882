/// A film that drains down a slope within one step: the depths it will have, and what its cells may give.
///
/// A draining film is a wave, ∂h/∂t + ∂F(h)/∂s = 0 with F = M(h) · drive (Nusselt 1916), that runs some cells in a
/// step, and a front steepens behind it. With mobilities of the depths before the step a front passes one cell a
/// step at most and the water piles up behind it. So the depths to come are foretold here, cell after cell down the
/// slope, each implicit in its own depth:
///
///   h' + κ (h' - o)³ = h + what came from above        κ = dt/dx · drive/(3ν),  o = held water and the bed's rise
///
/// monotone and stable for steps of any length. Only the mobilities are made of it; the step itself stays the one
/// balance of film.h, so a bead at rest, whose drive is nothing, stays at rest. The y direction first, then x.
///
/// Range   that of film.h: friction much larger than inertia, h² well below 3ν dt; a tilt, else nothing is foretold.
#pragma once
#include "grid/tiles.h"
#include "sheet/sheet_state.h"
#include "water/film.h"

namespace tidemark::water {

using grid::Field;

/// Columns a thread follows down the sheet together.
constexpr int column_block = 64;

struct Slope {
    float x = 0, y = 0; ///< g sin α along the axes, m/s²
};

/// `of_a_part`: what comes in through a rim (sheet/rim.h) is known of the fluxes; else nothing comes from what sleeps.
void foretell(const sheet::SheetState&, const FilmParams&, const Field<float>& pressure, const Field<float>& way,
              const Field<float>& nu_factor, Slope, double dt_s, Field<float>& ahead, bool of_a_part = false);

/// Scales down fluxes so that no cell gives more than it had and has just been given from above along the steeper
/// axis. `given` is scratch: the factor of each cell.
void limit_downhill(sheet::SheetState&, Slope, double dt_s, Field<float>& given);

} // namespace tidemark::water
