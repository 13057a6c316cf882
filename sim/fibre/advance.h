/// Fibre: the sheet drinks, its halves even out, water creeps along it.
///
/// In this order, each for the whole step: uptake.h (film to front), through.h (front and back), creep.h (along both
/// halves). Any dt is stable; a time step of seconds is accurate, because the film changes by more than that.
/// Reads and writes awake cells (damp_tiles) only: film_m, film_low_m, front_kg_m2, back_kg_m2, drawn_m.
/// Range   dt 0 to 1e6 s; the paper's numbers as materials/paper.h has them, but sorptivity and the diffusivities from
///         0 on (paper that does not drink); else refused (grid/within.h).
#pragma once
#include "fibre/creep.h"
#include "sheet/sheet_state.h"

#include <vector>

namespace tidemark::fibre {

struct FibreWorkspace {
    CreepWorkspace creep;
    std::vector<double> drawn_row, run_off_row; ///< sums by row
};

struct FibreMoved {
    double film_to_front_kg = 0;
    double run_off_kg = 0; ///< from the back half, beyond its capacity
};

FibreMoved advance(sheet::SheetState&, FibreWorkspace&, double dt_s);

} // namespace tidemark::fibre
