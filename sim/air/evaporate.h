/// The sheet gives its water to the air, and an absorbent board drinks from its back.
///
///   film             E_wet · factor, from film_m + film_low_m, never more than is there
///   front, no film   E(w) · factor (drying_curve.h), towards the room's equilibrium from either side, never past it
///   back             open board: E(w); absorbent: water above saturation sinks into the board with a time constant;
///                    sealed: nothing
///   under resist     nothing from the fibres
///
/// Where E is straight in w the step is the exponential to third order ((1,2) Padé form of e⁻ˣ); it is stable for any
/// dt; a film that ends within the step lets the fibres dry for the rest of it. A film thinner than 0.05 µm is
/// added to the front half. What is booked is the change of the stored numbers, so the ledger closes to rounding.
/// Reads and writes awake cells (damp_tiles) of the sheet only.
/// Range   dt 0 to 1e6 s, board_time_s 1 to 1e6 s, and plate.h's for the room; else refused (grid/within.h).
#pragma once
#include "air/drying_curve.h"
#include "air/sideways.h"
#include "sheet/sheet_state.h"

#include <concepts>
#include <vector>

namespace tidemark::air {

/// Follows from paper, room, board and the sheet's size; remade when the room changes.
struct AirParams {
    double plate_m = 0.3;       ///< length along the wind
    Evaporation wet;            ///< of a face with film
    DryingCurve curve;          ///< the same for both halves
    double wet_front_kg_m2 = 0; ///< water activity 0.9: wet in the eyes of sideways.h
    double board_time_s = 600;  ///< an absorbent board takes free water from the back; wood, from memory
};
AirParams make_params(const sheet::SheetState&);
double plate_length_m(const sheet::SheetState&); ///< along the wind

/// Belongs to one run; copy it with the sheet when a run is forked.
struct AirWorkspace {
    AirParams params;
    SidewaysVapour sideways;
    bool ready = false;
    materials::Room room;                   ///< that params were made for
    std::vector<double> air_row, board_row; ///< sums by row
};

/// Without the sums by row, which each step writes anew (grid/archive.h).
template <class A, class Self>
    requires std::same_as<std::remove_const_t<Self>, AirWorkspace>
void archive_of(A& a, Self& self) {
    auto& [params, sideways, ready, room, air_row, board_row] = self;
    a(params, sideways, ready, room);
    if constexpr (A::reads) a.require(ready != sideways.factor.empty() && ready != params.curve.k_1_s.empty());
}

struct AirMoved {
    double evaporated_kg = 0; ///< negative when the sheet took up vapour
    double to_board_kg = 0;
};

constexpr double thinnest_film_m = 0.05e-6;

AirMoved advance(sheet::SheetState&, AirWorkspace&, double dt_s);

/// Remakes the sideways factors for the sheet as it is. Call it when changed_share says that the pattern has moved.
void update_sideways(const sheet::SheetState&, AirWorkspace&);
double changed_share(const sheet::SheetState&, AirWorkspace&); ///< 0 ... 1; sideways.h

} // namespace tidemark::air
