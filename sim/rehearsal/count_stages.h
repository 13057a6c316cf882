/// How many cells of every area, and of the whole sheet, are wet, moist, damp and dry (sheet/stage.h). Cells under resist
/// are not counted: nobody sees them, and what has crept in below dries in a day or more.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "grid/field.h"
#include "grid/tiles.h"
#include "sheet/sheet_state.h"

namespace tidemark::rehearsal {

struct StageCount {
    std::array<long, 4> cells{}; ///< by stage
};

/// nx × ny, 1 in an area's cells, else 0; and where in each row its first and last ones are: most areas are small.
struct AreaCells {
    explicit AreaCells(grid::Field<std::uint8_t> cells);
    grid::Field<std::uint8_t> inside;
    std::vector<grid::Span> reach; ///< by row
};

/// One count an area, the whole sheet last.
std::vector<StageCount> count_stages(const sheet::SheetState&, const std::vector<AreaCells>& areas);

} // namespace tidemark::rehearsal
