/// From a picture to what a painter traces: its masses in outline, as large as the sheet.
///
/// The masses are those that a draft of the same picture would paint, whatever the size of the sheet: widths of the
/// squint are those of a sheet of 280 mm, and grow with it, as the brush does.
#pragma once
#include "grid/picture.h"
#include "reference/outline.h"

namespace tidemark::reference {

constexpr int traced_pixels = 1120; ///< along the longer side: 4 a mm on a sheet of 280 mm; finer ones are not needed

struct Traced {
    int masses = 0;
    std::vector<Outline> lines;
};

/// The picture fills the sheet; `groups` 2 ... 7.
Traced traced(const grid::Picture&, double width_mm, double height_mm, int groups);

} // namespace tidemark::reference
