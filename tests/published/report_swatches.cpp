// Sources: Kubelka & Munk 1931, Saunderson 1942, CIE 15. data/pigment_colours.csv was computed by the same optics apart
// from this program: it holds the way from table to chart, not what a pigment looks like.
#include "colour/lab.h"
#include "grid/csv.h"
#include "materials/presets.h"
#include "report/swatches.h"
#include "support/published.h"

#include <catch2/catch.hpp>
#include <map>

using namespace tidemark;
using published::Check;

namespace {

const materials::Presets& presets() {
    static const materials::Presets all = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    return all;
}

} // namespace

TEST_CASE("every pigment dries to its colour on the natural white, thin to thick", "[published][report]") {
    const auto table = grid::CsvTable::read(TIDEMARK_TESTS_DIR "/published/data/pigment_colours.csv");
    const report::Swatches all =
        report::swatches(*presets().paper("cold-pressed-300"), presets().pigments, colour::Light::D65);
    std::map<std::pair<std::string, long>, report::Swatch> by_load;
    for (const report::SwatchRow& row : all.rows)
        for (const report::Swatch& s : row.swatches) by_load[{row.pigment.id, std::lround(s.load_kg_m2 * 1e6)}] = s;
    REQUIRE(table.rows() == by_load.size());
    for (std::size_t r = 0; r < table.rows(); ++r) {
        const std::string id = table.text(r, "id");
        const auto number = [&](const char* column) { return table.number(r, column); };
        INFO(id << ", " << number("load_g_m2") << " g/m2");
        const auto found = by_load.find({id, std::lround(number("load_g_m2") * 1e3)});
        REQUIRE(found != by_load.end());
        const colour::Lab dry = found->second.dry.lab;
        Check{"colour of 32 pigments at five loads, dry", "Kubelka & Munk 1931, Saunderson 1942, CIE 15", "ΔE00"}.near(
            0, colour::delta_e_2000(dry, {number("L"), number("a"), number("b")}), 0.5);
        // Soaked paper is darker than dry paper under the same film; the table has one decimal.
        CHECK(found->second.wet.lab.L <= number("L_film") + 0.051);
    }
}
