/// Taking things off a cell, and booking them as lifted. Shares 0 ... 1; a depth below 0 counts as 0.
#pragma once
#include "sheet/ledger.h"
#include "sheet/record.h"
#include "sheet/sheet_state.h"

namespace tidemark::hand {

struct Books {
    sheet::Ledger& ledger;
    sheet::ActRecord& record;
    double cell_m2;
};

/// The film down to `down_to_m`, with what floats in it, pigment and gum, in proportion.
void take_film(sheet::SheetState&, int i, int j, double down_to_m, Books&);
/// A share of what lies loose on the felt.
void take_loose(sheet::SheetState&, int i, int j, double share, Books&);
/// A share of the front half's water above its equilibrium with the room. What is in the pores stays.
void take_moisture(sheet::SheetState&, int i, int j, double share, Books&);

} // namespace tidemark::hand
