#include "grid/units.h"
#include "materials/read_tables_detail.h"
#include "materials/table_detail.h"

namespace tidemark::materials {

namespace {

Brush brush_from(Row& row) {
    Brush b;
    b.id = row.text("id");
    b.kind = row.text("kind");
    b.size_m = grid::m_from_mm(row.number("size_mm"));
    b.hold_m3 = grid::m3_from_mL(row.number("hold_mL"));
    b.release_m3 = grid::m3_from_mL(row.number("release_mL"));
    b.mark_min_m = grid::m_from_mm(row.number("mark_min_mm"));
    b.mark_max_m = grid::m_from_mm(row.number("mark_max_mm"));
    b.provenance = row.text("provenance");
    return b;
}

} // namespace

std::vector<Brush> read_brushes(const grid::CsvTable& table, std::vector<grid::Problem>& problems) {
    return read_rows<Brush>(
        table, {"id", "kind", "size_mm", "hold_mL", "release_mL", "mark_min_mm", "mark_max_mm", "provenance"},
        problems, brush_from);
}

} // namespace tidemark::materials
