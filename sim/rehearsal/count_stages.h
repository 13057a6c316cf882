/// How many cells of every area, and of the whole sheet, are wet, moist, damp and dry (sheet/stage.h). Cells under resist
/// are not counted: nobody sees them, and what has crept in below dries in a day or more.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "grid/field.h"
#include "sheet/sheet_state.h"

namespace tidemark::rehearsal {

struct StageCount {
    std::array<long, 4> cells{}; ///< by stage
};

/// `areas`: nx × ny, 1 in an area's cells, else 0. One count an area, the whole sheet last.
std::vector<StageCount> count_stages(const sheet::SheetState&, const std::vector<grid::Field<std::uint8_t>>& areas);

} // namespace tidemark::rehearsal
