#include <fmt/format.h>

#include "cli/commands.h"
#include "grid/problem.h"

namespace tidemark::cli {

double cell_m_from(double cell_mm, const plan::Plan& plan) {
    if (!(cell_mm >= 0.1 && cell_mm <= 4)) throw grid::BadInput("--cell", fmt::format("{} mm", cell_mm), "0.1 to 4");
    const double cell_m = cell_mm * 1e-3, cells = plan.width_m * plan.height_m / (cell_m * cell_m);
    if (cells > 60e6) throw grid::BadInput("--cell", fmt::format("{} mm makes {:.0f} million cells", cell_mm, cells / 1e6), "at most 60 million");
    return cell_m;
}

} // namespace tidemark::cli
