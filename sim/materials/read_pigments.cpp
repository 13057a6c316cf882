#include "grid/units.h"
#include "materials/read_tables_detail.h"
#include "materials/table_detail.h"

#include <fmt/format.h>

namespace tidemark::materials {

namespace {

/// "K_400_m2_kg" ... "K_700_m2_kg", or the same with S.
std::string band_column(char letter, int band) {
    const int nm = static_cast<int>(colour::first_band_nm + band * colour::band_step_nm);
    return fmt::format("{}_{}_m2_kg", letter, nm);
}

std::vector<std::string> pigment_columns() {
    std::vector<std::string> columns = {"id",       "name",         "density_kg_m3", "d50_um",    "gsd",
                                        "staining", "flocculation", "caution",       "provenance"};
    for (const char letter : {'K', 'S'})
        for (int k = 0; k < colour::bands; ++k)
            columns.push_back(band_column(letter, k));
    return columns;
}

Pigment pigment_from(Row& row) {
    Pigment p;
    p.id = row.text("id");
    p.name = row.text("name");
    p.density_kg_m3 = row.number("density_kg_m3");
    p.d50_m = grid::m_from_um(row.number("d50_um"));
    p.gsd = row.number("gsd");
    p.staining = row.number("staining");
    p.flocculation = row.number("flocculation");
    for (int k = 0; k < colour::bands; ++k) {
        p.K_m2_kg[k] = static_cast<float>(row.number(band_column('K', k)));
        p.S_m2_kg[k] = static_cast<float>(row.number(band_column('S', k)));
    }
    p.caution = row.text("caution");
    p.provenance = row.text("provenance");
    return p;
}

} // namespace

std::vector<Pigment> read_pigments(const grid::CsvTable& table, std::vector<grid::Problem>& problems) {
    return read_rows<Pigment>(table, pigment_columns(), problems, pigment_from);
}

} // namespace tidemark::materials
