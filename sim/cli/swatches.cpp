#include <fmt/format.h>

#include <cstdio>
#include <optional>

#include "cli/commands.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "materials/presets.h"
#include "report/swatches.h"

namespace tidemark::cli {
namespace {

constexpr double pixels_per_m = 2400 / 0.2; // a card of 200 mm

colour::Light light_from(const std::string& name) {
    for (const colour::Light light : {colour::Light::D65, colour::Light::D50})
        if (report::light_name(light) == name) return light;
    throw grid::BadInput("--light", fmt::format("unknown light \"{}\"", name), "D65, D50");
}

const materials::Paper& paper_from(const materials::Presets& presets, const std::string& id) {
    if (const materials::Paper* paper = presets.paper(id)) return *paper;
    std::vector<std::string> ids;
    for (const materials::Paper& paper : presets.papers) ids.push_back(paper.id);
    const std::string nearest = grid::did_you_mean(id, ids);
    throw grid::BadInput("--paper", fmt::format("unknown paper \"{}\"{}", id, nearest),
                         nearest.empty() ? fmt::format("{}", fmt::join(ids, ", ")) : std::string());
}

} // namespace

bool draw_swatches(const SwatchesOptions& o) {
    const colour::Light light = light_from(o.light);
    const std::filesystem::path picture = output_file(o.out, "--out");
    std::filesystem::path table;
    if (!o.csv.empty()) {
        table = output_file(o.csv, "--csv");
        if (same_file(picture, table))
            throw grid::BadInput("--csv", fmt::format("\"{}\" is the picture, too", o.csv), "another file");
    }
    const auto presets = materials::Presets::read(grid::presets_folder());
    const auto cautions = materials::read_cautions(grid::presets_folder());
    const report::Swatches all = report::swatches(paper_from(presets, o.paper), presets.pigments, light);

    grid::OutputFolder out(picture.parent_path());
    std::optional<grid::OutputFolder> beside; // the table's, looked at before anything is in place
    if (!o.csv.empty()) {
        beside.emplace(table.parent_path());
        beside->write(table.filename().string(), report::swatch_table(all));
    }
    out.write(picture.filename().string(), grid::png_bytes(report::swatch_card(all, cautions), pixels_per_m));
    if (beside) beside->commit();
    out.commit();
    fmt::print("{} pigments on {}, in {}. Look at {}\n", all.rows.size(), all.paper, o.light, o.out);
    return true;
}

} // namespace tidemark::cli
