#include "materials/pigment.h"

#include "grid/units.h"
#include "materials/range_detail.h"

#include <fmt/format.h>

namespace tidemark::materials {

std::vector<grid::Problem> Pigment::problems(const std::string& where) const {
    Ranges check(where, fmt::format("pigment \"{}\"", id));
    check.not_empty("id", id);
    check.not_empty("name", name);
    check.within("density_kg_m3", density_kg_m3, 1001, 12000); // lighter than water would float
    check.within("d50_um", grid::um_from_m(d50_m), 1e-3, 100);
    check.within("gsd", gsd, 1, 5);
    check.within("staining", staining, 0, 1);
    check.within("flocculation", flocculation, 0, 1);
    for (int k = 0; k < colour::bands; ++k) {
        const int nm = static_cast<int>(colour::first_band_nm + k * colour::band_step_nm);
        check.within(fmt::format("K_{}_m2_kg", nm), K_m2_kg[k], 0, 1e5);
        check.within(fmt::format("S_{}_m2_kg", nm), S_m2_kg[k], 0, 1e5);
    }
    check.one_of("caution", caution, {"low", "medium", "high"});
    return std::move(check).problems();
}

} // namespace tidemark::materials
