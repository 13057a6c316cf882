#include "grid/units.h"
#include "materials/read_tables_detail.h"
#include "materials/table_detail.h"

namespace tidemark::materials {

namespace {

Room room_from(Row& row) {
    Room r;
    r.id = row.text("id");
    r.temperature_K = grid::K_from_C(row.number("temperature_C"));
    r.humidity = row.number("humidity_pct") / 100;
    r.air_m_s = row.number("air_m_s");
    r.sun_W_m2 = row.number("sun_W_m2");
    r.longwave_W_m2 = row.number("longwave_W_m2");
    r.turbulence = row.number("turbulence");
    r.provenance = row.text("provenance");
    return r;
}

} // namespace

std::vector<Room> read_rooms(const grid::CsvTable& table, std::vector<grid::Problem>& problems) {
    return read_rows<Room>(
        table,
        {"id", "temperature_C", "humidity_pct", "air_m_s", "sun_W_m2", "longwave_W_m2", "turbulence", "provenance"},
        problems, room_from);
}

} // namespace tidemark::materials
