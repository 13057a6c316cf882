#include "grid/units.h"
#include "materials/read_tables_detail.h"
#include "materials/table_detail.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::materials {

using grid::kg_m2_from_g_m2, grid::m_from_mm, grid::m_from_um, grid::rad_from_deg;

namespace {

const std::vector<std::string> paper_columns = {"id",
                                                "basis_g_m2",
                                                "caliper_mm",
                                                "capacity_kg_m2",
                                                "relief_rms_um",
                                                "relief_corr_mm",
                                                "held_um",
                                                "sorptivity_front_m_s05",
                                                "sorptivity_back_m_s05",
                                                "theta_advancing_deg",
                                                "theta_receding_deg",
                                                "lateral_diffusivity_m2_s",
                                                "through_diffusivity_m2_s",
                                                "gab_m0",
                                                "gab_C",
                                                "gab_K",
                                                "white",
                                                "provenance"};

std::vector<std::string> names_of(const Whites& whites) {
    std::vector<std::string> names;
    for (const auto& [name, white] : whites)
        names.push_back(name);
    return names;
}

/// Looked at here, whether a paper has it or not; after a problem a white that no paper is blamed for.
float white_of(Row& row, const std::string& name) {
    const double value = row.number(name);
    if (value >= least_white && value <= 1)
        return static_cast<float>(value);
    if (!std::isnan(value))
        row.refuse(fmt::format("{} is {:.6g}", name, value), fmt::format("{:.6g} to 1", least_white));
    return 1;
}

Paper paper_from(Row& row) {
    Paper p;
    p.id = row.text("id");
    p.basis_kg_m2 = kg_m2_from_g_m2(row.number("basis_g_m2"));
    p.caliper_m = m_from_mm(row.number("caliper_mm"));
    p.capacity_kg_m2 = row.number("capacity_kg_m2");
    p.relief_rms_m = m_from_um(row.number("relief_rms_um"));
    p.relief_corr_m = m_from_mm(row.number("relief_corr_mm"));
    p.held_m = m_from_um(row.number("held_um"));
    p.sorptivity_front_m_s05 = row.number("sorptivity_front_m_s05");
    p.sorptivity_back_m_s05 = row.number("sorptivity_back_m_s05");
    p.theta_advancing_rad = rad_from_deg(row.number("theta_advancing_deg"));
    p.theta_receding_rad = rad_from_deg(row.number("theta_receding_deg"));
    p.lateral_diffusivity_m2_s = row.number("lateral_diffusivity_m2_s");
    p.through_diffusivity_m2_s = row.number("through_diffusivity_m2_s");
    p.gab_m0 = row.number("gab_m0");
    p.gab_C = row.number("gab_C");
    p.gab_K = row.number("gab_K");
    p.provenance = row.text("provenance");
    return p;
}

} // namespace

std::vector<Paper>
read_papers(const grid::CsvTable& table, const Whites& whites, std::vector<grid::Problem>& problems) {
    return read_rows<Paper>(table, paper_columns, problems, [&](Row& row) {
        Paper paper = paper_from(row);
        const std::string white = row.text("white");
        const auto found = whites.find(white);
        if (found != whites.end())
            paper.white = found->second;
        else
            row.refuse(fmt::format("column \"white\" is \"{}\"", white),
                       fmt::format("a column of paper_spectra.csv: {}", fmt::join(names_of(whites), ", ")));
        return paper;
    });
}

Whites read_whites(const grid::CsvTable& table, std::vector<grid::Problem>& problems) {
    Whites whites;
    if (!usable(table, {"band_nm"}, problems))
        return whites;
    if (table.rows() != colour::bands) {
        problems.push_back({table.where(0), fmt::format("{} bands", table.rows()), "16, from 400 to 700 nm by 20"});
        return whites;
    }
    for (std::size_t k = 0; k < table.rows(); ++k) {
        Row row(table, k, problems);
        const double band_nm = row.number("band_nm");
        const double expected_nm = colour::first_band_nm + colour::band_step_nm * static_cast<double>(k);
        if (row.fine() && band_nm != expected_nm)
            row.refuse(fmt::format("band_nm is {:.6g}", band_nm), fmt::format("{} in this row", expected_nm));
        for (const std::string& name : table.columns())
            if (name != "band_nm" && name != "provenance")
                whites[name].at[k] = white_of(row, name);
    }
    return whites;
}

} // namespace tidemark::materials
