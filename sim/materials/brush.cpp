#include "materials/brush.h"

#include "grid/units.h"
#include "materials/range_detail.h"

#include <fmt/format.h>

namespace tidemark::materials {

std::vector<grid::Problem> Brush::problems(const std::string& where) const {
    Ranges check(where, fmt::format("brush \"{}\"", id));
    check.not_empty("id", id);
    check.one_of("kind", kind, {"round", "flat", "mop"});
    check.within("size_mm", grid::mm_from_m(size_m), 0.5, 200);
    check.within("hold_mL", grid::mL_from_m3(hold_m3), 0.001, 100);
    check.within("release_mL", grid::mL_from_m3(release_m3), 0.001, 100);
    check.require(!(release_m3 > hold_m3), "release_mL is more than hold_mL", "at most hold_mL");
    check.within("mark_min_mm", grid::mm_from_m(mark_min_m), 0.05, 200);
    check.within("mark_max_mm", grid::mm_from_m(mark_max_m), 0.05, 200);
    check.require(!(mark_min_m > mark_max_m), "mark_min_mm is more than mark_max_mm", "at most mark_max_mm");
    return std::move(check).problems();
}

} // namespace tidemark::materials
