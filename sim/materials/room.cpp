#include "materials/room.h"

#include "materials/range_detail.h"

#include <fmt/format.h>

namespace tidemark::materials {

std::vector<grid::Problem> Room::problems(const std::string& where) const {
    Ranges check(where, fmt::format("room \"{}\"", id));
    check.not_empty("id", id);
    check.within("temperature_C", temperature_K - 273.15, 0, 50);
    check.within("humidity_pct", humidity * 100, 1, 99);
    check.within("air_m_s", air_m_s, 0, 20);
    check.within("sun_W_m2", sun_W_m2, 0, 1200);
    check.within("longwave_W_m2", longwave_W_m2, -200, 200);
    check.within("turbulence", turbulence, 0.5, 3);
    return std::move(check).problems();
}

} // namespace tidemark::materials
