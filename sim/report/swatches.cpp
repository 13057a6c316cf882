#include "report/swatches.h"

#include "grid/csv.h"
#include "sheet/look.h"

namespace tidemark::report {

namespace {

Seen seen_in(colour::Light light, const colour::Reflectance& reflected) {
    const colour::Xyz xyz = colour::xyz_from(reflected, light);
    return {colour::lab_from(xyz, light), colour::srgb_from(xyz, light)};
}

} // namespace

Swatches swatches(const materials::Paper& paper, const std::vector<materials::Pigment>& pigments, colour::Light light) {
    Swatches out{paper.id, light, seen_in(light, paper.white), {}};
    for (const materials::Pigment& pigment : pigments) {
        SwatchRow row{pigment, {}};
        for (const double load : swatch_loads_kg_m2) {
            const auto layer = [&](sheet::LookAs as) {
                return seen_in(light, sheet::layer_seen(paper, {{&pigment, load}}, as));
            };
            row.swatches.push_back({load, layer(sheet::LookAs::as_now), layer(sheet::LookAs::dried)});
        }
        out.rows.push_back(std::move(row));
    }
    return out;
}

std::string light_name(colour::Light light) { return light == colour::Light::D50 ? "D50" : "D65"; }

std::string swatch_table(const Swatches& all) {
    grid::CsvWriter csv({"id", "load_g_m2", "light", "wet_L", "wet_a", "wet_b", "dry_L", "dry_a", "dry_b"});
    for (const SwatchRow& row : all.rows)
        for (const Swatch& s : row.swatches) {
            csv.cell(row.pigment.id).number(s.load_kg_m2 * 1e3, 4).cell(light_name(all.light));
            for (const colour::Lab& lab : {s.wet.lab, s.dry.lab}) csv.number(lab.L, 4).number(lab.a, 4).number(lab.b, 4);
            csv.end_row();
        }
    return csv.text();
}

} // namespace tidemark::report
