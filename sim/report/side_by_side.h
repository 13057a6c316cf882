/// Sheets side by side, each with some lines below it: a contact sheet.
#pragma once
#include "grid/picture.h"
#include "plan/plan.h"

#include <string>
#include <vector>

namespace tidemark::report {

/// A part of the sheet, in cells.
struct Cut {
    int x = 0, y = 0, width = 0, height = 0;
    bool operator==(const Cut&) const = default;
};

/// What these steps paint and `margin_m` around it; the whole sheet when that is most of it, or when there are none.
Cut cut_around(const plan::Plan&, const std::vector<int>& steps, int nx, int ny, double margin_m);
grid::Picture cut(const grid::Picture&, const Cut&);

struct SheetPiece {
    grid::Picture picture; ///< one pixel a cell; all of one size
    std::vector<std::string> captions;
};

/// In rows of so many that the whole is about as wide as four thirds of its height, on a mid-grey ground, so that whites and
/// darks both stand off it. Each piece is made larger (enlarge.h) towards `piece_px` on its longer side.
grid::Picture side_by_side(const std::vector<SheetPiece>&, int piece_px = 480);

/// Pixels of that picture, for so many pieces of this size in cells and with so many lines.
struct PageSize {
    int columns = 1, width = 0, height = 0;
};
PageSize page_size(int pieces, int cells_wide, int cells_high, int lines, int piece_px = 480);

} // namespace tidemark::report
