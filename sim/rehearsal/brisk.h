/// Which tiles of the sheet need finer steps than the rest.
///
/// On a tilted board a step may let waves cross four cells (step_size.h), and where a brush has just been, or a bead
/// runs, they do so in a twentieth of a second, while the rest of the sheet drains at a few cells a second. Such brisk
/// tiles, and one tile around each, are stepped alone (parts.cpp): a step of the whole sheet first says what passes
/// their rim. The hand's strokes land in them meanwhile.
#pragma once
#include "sheet/rim.h"
#include "sheet/sheet_state.h"

#include <vector>

namespace tidemark::rehearsal {

/// By tile, row after row.
using TileFlags = std::vector<std::uint8_t>;

struct Parts {
    double step_s = 0;   ///< of the whole sheet; 0: parts don't pay
    grid::TileSet brisk; ///< with the tiles around them
    grid::TileSet core;  ///< without
};

/// What is known of the next moments.
struct Outlook {
    double fine_s = 0;    ///< the step that the briskest tile may take now, no longer than until the hand's next strokes
    double longest_s = 0; ///< until something happens that is no stroke of the hand
    double wave_m_s = 0;  ///< on what the hand will have laid
    double cells_a_step = 0;
    const TileFlags& touched; ///< tiles where the hand has been since the last step, or comes within longest_part_s
};

constexpr double longest_part_s = 2;
constexpr double most_cells = 24;          ///< that a wave may cross in all sub-steps: less than the tile around
constexpr double most_cells_at_sleepers = 12; ///< a front is half as fast, and SheetState::wake() keeps six cells
constexpr double parts_pay_from = 0.8;     ///< of the work of plain steps

/// How far into the future the whole sheet may go, and what is to be stepped finely meanwhile.
Parts find_parts(const sheet::SheetState&, const Outlook&);

/// Adds to parts.brisk what a step of the whole sheet (already taken: film_before_m, fluxes) shows to be brisk too, or
/// to let more water run through the rim than pigment can follow in one go.
void add_brisk(sheet::SheetState&, Parts&, double cells_a_step);

} // namespace tidemark::rehearsal
