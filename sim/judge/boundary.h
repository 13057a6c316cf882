/// The outline of an area: points along the line where its coverage is one half, with normals.
///
/// Marching squares between cell centres (Lorensen & Cline 1987, in two dimensions), chained, lightly smoothed along
/// the chain so that a mask of whole cells has no stairs, and resampled to equal spacing. Normals come from the
/// gradient of the blurred mask and point out of the area. The border of the sheet is no outline.
/// Millimetres; (0, 0) is the sheet's top left corner, so the centre of cell (i, j) lies at (i + 1/2, j + 1/2) cells.
#pragma once
#include "grid/field.h"

#include <vector>

namespace tidemark::judge {

struct OutlinePoint {
    double x_mm = 0, y_mm = 0;
    double out_x = 0, out_y = 0; ///< unit normal
};
using Outline = std::vector<OutlinePoint>; ///< points `spacing_mm` apart, open or closed (then first and last meet)

struct OutlineRules {
    double spacing_mm = 0.5;
    double normal_blur_mm = 1.0; ///< standard deviation; both 0.01 ... 100, else refused (grid/within.h)
};
/// Cells of 0.01 to 100 mm, coverage 0 ... 1; what is narrower than a cell has no outline here.
std::vector<Outline> trace_outlines(const grid::Field<float>& coverage, double cell_mm, const OutlineRules& = {});

/// Bilinear between cell centres, the nearest cell's value beyond the outermost centres.
double sample_mm(const grid::Field<float>&, double cell_mm, double x_mm, double y_mm);

} // namespace tidemark::judge
