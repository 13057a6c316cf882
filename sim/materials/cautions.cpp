#include "materials/cautions.h"

#include "materials/range_detail.h"
#include "materials/table_detail.h"

#include <algorithm>
#include <sstream>

namespace tidemark::materials {

bool Caution::concerns(const std::string& name) const {
    return std::find(applies_to.begin(), applies_to.end(), name) != applies_to.end();
}

namespace {

Caution caution_from(Row& row) {
    Caution c;
    std::istringstream names(row.text("applies_to"));
    for (std::string name; names >> name;)
        c.applies_to.push_back(name);
    c.what = row.text("what");
    c.level = row.text("level");
    c.text = row.text("caution");
    return c;
}

} // namespace

std::vector<Caution> read_cautions(const std::filesystem::path& presets_folder) {
    const grid::CsvTable table = read_table(presets_folder / "cautions.csv");
    std::vector<grid::Problem> problems;
    std::vector<Caution> cautions;
    if (!usable(table, {"applies_to", "what", "level", "caution"}, problems))
        throw grid::BadInput(problems);
    for (std::size_t r = 0; r < table.rows(); ++r) {
        Row row(table, r, problems);
        Caution c = caution_from(row);
        Ranges check(row.where(), "caution \"" + c.what + "\"");
        check.require(!c.applies_to.empty(), "applies_to is empty",
                      "pigment ids, warm-air, sun, every-plan or general, separated by spaces");
        check.one_of("level", c.level, {"note", "low", "medium", "high"});
        check.not_empty("caution", c.text);
        append(problems, std::move(check).problems());
        cautions.push_back(std::move(c));
    }
    if (!problems.empty())
        throw grid::BadInput(problems);
    return cautions;
}

} // namespace tidemark::materials
