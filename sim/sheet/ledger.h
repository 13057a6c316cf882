/// Accounts for every gram: what was brought minus what went away is what the sheet holds.
///
///   start + laid - evaporated - drawn off (board, run off, lifted) = film + front + back
///   and for every pigment: laid - lifted = afloat + loose + bound + inside + earlier passes
///
/// Flows are summed in double as they happen; check() sums the sheet and compares. Closure is relative to all that
/// ever was on the sheet, and must stay below 1e-6 at any moment; more is an internal error.
#pragma once
#include <vector>

#include "sheet/sheet_state.h"

namespace tidemark::sheet {

struct Ledger {
    double start_kg = 0, laid_kg = 0, evaporated_kg = 0, to_board_kg = 0, run_off_kg = 0, lifted_kg = 0;
    std::vector<double> pigment_laid_kg, pigment_lifted_kg;
    double gum_laid_kg = 0, gum_lifted_kg = 0; ///< as all above: summed since the start
};

struct LedgerLine {
    double time_s = 0;
    Ledger flows;
    double film_kg = 0, front_kg = 0, back_kg = 0;
    std::vector<double> pigment_on_sheet_kg;
    double gum_on_sheet_kg = 0;
    double water_closure = 0;   ///< relative
    double pigment_closure = 0; ///< worst pigment (or gum), relative
};

LedgerLine check(const SheetState&, const Ledger&);
constexpr double ledger_tolerance = 1e-6;

} // namespace tidemark::sheet
