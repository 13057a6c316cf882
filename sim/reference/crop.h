/// A part of a picture in the proportions of a sheet.
///
/// Pixels of the whole picture, turned as its camera was held, from its top left corner.
#pragma once
#include "grid/picture.h"

namespace tidemark::reference {

struct Crop {
    double x = 0, y = 0, width = 0, height = 0;
};

/// The largest part with the sheet's proportions, in the middle.
Crop central_crop(int width, int height, double sheet_width_mm, double sheet_height_mm);

/// What of a picture does not come onto the sheet, measured on the sheet.
struct FallsAway {
    double left_mm = 0, right_mm = 0, top_mm = 0, bottom_mm = 0;
    double share = 0; ///< 0 ... 1 of the picture's area
};
FallsAway falls_away(const Crop&, int width, int height, double sheet_width_mm);

/// The part cut out, to whole pixels of `picture`, which may be the whole one (`full_width`) reduced.
grid::Picture cut_out(const grid::Picture&, const Crop&, int full_width, int full_height);

} // namespace tidemark::reference
