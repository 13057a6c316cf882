#include "grid/csv.h"
#include "report/tables.h"

#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

double tenth(double v) { return std::isfinite(v) ? std::round(v * 10) / 10 + 0.0 : v; }
double percent(double share) { return tenth(100 * share); }

void group_rows(grid::CsvWriter& csv, const judge::Values& v) {
    for (int k = 0; k < static_cast<int>(v.groups.size()); ++k) {
        const judge::GroupValues& g = v.groups[k];
        csv.cell("group").cell(reference::group_word(k, static_cast<int>(v.groups.size())));
        csv.number(tenth(g.from_L)).number(tenth(g.to_L));
        csv.number(percent(g.reference_share)).number(percent(g.sheet_share));
        csv.number(tenth(g.reference_L)).number(tenth(g.sheet_L)).number(tenth(g.sheet_L - g.reference_L));
        csv.cell("");
        csv.end_row();
    }
}

void area_rows(grid::CsvWriter& csv, const judge::Values& v) {
    for (const judge::AreaValues& a : v.areas) {
        csv.cell("area").cell(a.area).cell("").cell("");
        csv.number(v.has_reference ? percent(a.share) : std::nan("")).number(percent(a.share));
        csv.number(tenth(a.reference_L)).number(tenth(a.sheet_L)).number(tenth(a.sheet_L - a.reference_L));
        csv.cell("");
        csv.end_row();
    }
}

void mass_rows(grid::CsvWriter& csv, const judge::Values& v) {
    for (const judge::MassValues& m : v.masses) {
        csv.cell("mass").cell(fmt::format("{} at {:.0f}, {:.0f} mm", reference::group_word(m.group, static_cast<int>(v.groups.size())), m.x_mm, m.y_mm));
        csv.cell("").cell("").number(percent(m.share)).number(percent(m.share));
        csv.number(tenth(m.reference_L)).number(tenth(m.sheet_L)).number(tenth(m.sheet_L - m.reference_L));
        csv.cell("");
        csv.end_row();
    }
}

void agreement_row(grid::CsvWriter& csv, const char* name, double value) {
    csv.cell("agreement").cell(name);
    for (int k = 0; k < 7; ++k)
        csv.cell("");
    csv.number(std::round(value * 1e4) / 1e4, 4);
    csv.end_row();
}

} // namespace

std::string values_table(const judge::Values& v) {
    grid::CsvWriter csv({"kind", "name", "from_L", "to_L", "reference_share_pct", "sheet_share_pct", "reference_L",
                         "sheet_L", "difference_L", "agreement"});
    group_rows(csv, v);
    area_rows(csv, v);
    mass_rows(csv, v);
    if (v.has_reference) {
        agreement_row(csv, "share in the right group", v.right_share);
        agreement_row(csv, "kappa", v.kappa);
        agreement_row(csv, "kappa with linear weights", v.weighted_kappa);
        agreement_row(csv, "kappa with linear weights, from three metres", v.distant_kappa);
    }
    return csv.text();
}

} // namespace tidemark::report
