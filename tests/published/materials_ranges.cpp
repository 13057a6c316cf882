// Presets lie inside published ranges, and their columns agree with each other.
#include "grid/csv.h"
#include "materials/cautions.h"
#include "materials/presets.h"
#include "support/published.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

using namespace tidemark;
using published::Check;

namespace {

const materials::Presets& presets() {
    static const auto read = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    return read;
}
grid::CsvTable table(const std::string& name) {
    return grid::CsvTable::read(std::string(TIDEMARK_PRESETS_DIR) + "/" + name);
}
const double sqrt_60 = std::sqrt(60.0);

} // namespace

// Gettens & Stout (1942), Painting Materials, table of physical properties of pigments: specific gravity × 1000, and
// the range that samples of one name cover (natural earths most; from memory).
TEST_CASE("gettens & stout 1942: densities lie in the range of their pigment", "[published][materials]") {
    struct Row {
        const char* id;
        double lo, hi;
    };
    const Row row =
        GENERATE(Row{"PB29", 2300, 2400}, Row{"PB27", 1750, 1900}, Row{"PG18", 3200, 3400},
                 Row{"PBr7-burnt-sienna", 3300, 4000}, Row{"PBr7-raw-sienna", 2900, 3400},
                 Row{"PBr7-burnt-umber", 3300, 4000}, Row{"PBr7-raw-umber", 3000, 3500}, Row{"PBk9", 2200, 2500},
                 Row{"PW6", 4000, 4260}, Row{"PW4", 5600, 5680}, Row{"PY35", 4250, 4800}, Row{"PR108", 4400, 5100});
    const materials::Pigment* pigment = presets().pigment(row.id);
    REQUIRE(pigment != nullptr);
    INFO(row.id);
    Check{std::string("density of ") + row.id, "Gettens & Stout 1942", "g/cm³"}.between(
        1e-3 * row.lo, 1e-3 * row.hi, 1e-3 * pigment->density_kg_m3);
}

// The most light a grain can stop is its shadow: K ≤ 3/(ρ d32) would hold for grains alone in the beam; d32 = d50
// exp(-ln²gsd / 2) for a log-normal volume distribution (Hatch & Choate 1929).
TEST_CASE("hatch & choate 1929: no pigment absorbs more than its grains' shadow", "[published][materials]") {
    for (const materials::Pigment& p : presets().pigments) {
        const double d32_m = p.d50_m * std::exp(-0.5 * std::pow(std::log(p.gsd), 2));
        INFO(p.id);
        Check{"absorption of a pigment, over its grains' shadow", "Hatch & Choate 1929"}.at_most(
            1, *std::max_element(p.K_m2_kg.begin(), p.K_m2_kg.end()) / (3 / (p.density_kg_m3 * d32_m)));
    }
}

// ISO 534 caliper of 300 g/m² cold-pressed sheets is 0.48 to 0.65 mm (from memory); cell wall 1540 kg/m³.
TEST_CASE("paper columns agree with each other", "[published][materials]") {
    const grid::CsvTable papers = table("papers.csv");
    for (std::size_t r = 0; r < papers.rows(); ++r) {
        const auto value = [&](const char* column) { return papers.number(r, column); };
        INFO(papers.text(r, "id"));
        const double density = value("basis_g_m2") / value("caliper_mm"), porosity = 1 - density / 1540;
        // Caliper has two digits, so density follows from it to one unit in the last: 2 %.
        CHECK(value("density_kg_m3") == Approx(density).epsilon(0.02));
        CHECK(value("porosity") == Approx(porosity).epsilon(0.02));
        CHECK(value("soaked_kg_m2") > value("capacity_kg_m2"));
        // The pores and the fibre walls (at most 1.4 kg/kg: Stone & Scallan 1967, from memory) hold what is soaked.
        CHECK(value("soaked_kg_m2") < porosity * value("caliper_mm") + 1.4e-3 * value("basis_g_m2"));
    }
    CHECK(table("papers.csv").rows() == presets().papers.size());
    const double caliper_mm = presets().paper("cold-pressed-300")->caliper_m * 1e3;
    Check{"thickness of a sheet of 300 g/m²", "range by ISO 534, from memory", "mm"}.between(0.48, 0.65, caliper_mm);
}

// Cobb (ISO 535): g/m² in 60 s; by Philip (1957) uptake is S √t.
TEST_CASE("philip 1957: sorptivity and diffusivity are what 60 s of water make them", "[published][materials]") {
    const grid::CsvTable papers = table("papers.csv");
    for (std::size_t r = 0; r < papers.rows(); ++r) {
        const auto value = [&](const char* column) { return papers.number(r, column); };
        INFO(papers.text(r, "id"));
        const double front = value("cobb60_front_g_m2") * 1e-3 / 998.2 / sqrt_60;
        const double back = value("cobb60_back_g_m2") * 1e-3 / 998.2 / sqrt_60;
        const Check sorptivity{"sorptivity of the papers, from their Cobb value", "ISO 535, Philip 1957", "µm/√s"};
        sorptivity.relative(1e6 * front, 1e6 * value("sorptivity_front_m_s05"), 0.002); // three digits
        sorptivity.relative(1e6 * back, 1e6 * value("sorptivity_back_m_s05"), 0.002);
        const double through = 0.7853981633974483 * std::pow(front / value("porosity"), 2);
        Check{"diffusivity through the papers, with the same uptake", "Philip 1957, Crank 1975", "µm²/s"}.relative(
            1e12 * through, 1e12 * value("through_diffusivity_m2_s"), 0.03); // two digits
        // Sized painting sheets 30 to 150 g/m², unsized above 200 (from memory).
        const double cobb = value("cobb60_front_g_m2");
        CHECK(((cobb >= 30 && cobb <= 150) || (papers.text(r, "id") == "soft-300" && cobb > 200)));
    }
}

// Cotton regain: about 6 % at 50 % and 8 % at 65 % humidity (Urquhart & Williams 1924; numbers from memory).
TEST_CASE("urquhart & williams 1924: paper holds the moisture that cotton does", "[published][materials]") {
    for (const materials::Paper& p : presets().papers) {
        const auto moisture = [&](double a) {
            const double x = p.gab_K * a;
            return p.gab_m0 * p.gab_C * x / ((1 - x) * (1 - x + p.gab_C * x));
        };
        INFO(p.id);
        const std::string cotton = "Urquhart & Williams 1924, cotton, from memory";
        Check{"moisture of the papers at 50 % humidity", cotton, "%"}.near(6.0, 100 * moisture(0.50), 0.6);
        Check{"moisture of the papers at 65 % humidity", cotton, "%"}.near(8.0, 100 * moisture(0.65), 0.8);
    }
}

TEST_CASE("papers differ as their classes do", "[published][materials]") {
    const auto paper = [](const char* id) { return *presets().paper(id); };
    CHECK(paper("hot-pressed-300").relief_rms_m < paper("cold-pressed-300").relief_rms_m);
    CHECK(paper("cold-pressed-300").relief_rms_m < paper("rough-300").relief_rms_m);
    CHECK(paper("cold-pressed-185").capacity_kg_m2 < paper("cold-pressed-300").capacity_kg_m2);
    CHECK(paper("cold-pressed-300").capacity_kg_m2 < paper("cold-pressed-640").capacity_kg_m2);
    CHECK(paper("soft-300").sorptivity_front_m_s05 > 3 * paper("cold-pressed-300").sorptivity_front_m_s05);
}

TEST_CASE("brush columns agree with each other", "[published][materials]") {
    const grid::CsvTable brushes = table("brushes.csv");
    for (std::size_t r = 0; r < brushes.rows(); ++r) {
        const auto value = [&](const char* column) { return brushes.number(r, column); };
        INFO(brushes.text(r, "id"));
        const double share = value("release_mL") / value("hold_mL");
        CHECK(share > 0.63); // 0.65 to 0.75, two digits
        CHECK(share < 0.77);
        CHECK(value("area_100um_cm2") == Approx(value("release_mL") * 100).margin(1));
        CHECK(value("area_60um_cm2") == Approx(value("release_mL") * 100 / 0.6).margin(1));
    }
}

TEST_CASE("every pigment has a caution line of its own level", "[published][materials]") {
    const auto cautions = materials::read_cautions(TIDEMARK_PRESETS_DIR);
    const std::map<std::string, int> rank{{"note", 0}, {"low", 1}, {"medium", 2}, {"high", 3}};
    for (const materials::Pigment& p : presets().pigments) {
        int highest = -1;
        for (const materials::Caution& c : cautions)
            if (c.concerns(p.id))
                highest = std::max(highest, rank.at(c.level));
        INFO(p.id);
        CHECK(highest == rank.at(p.caution));
    }
    for (const materials::Caution& c : cautions) // no line speaks of a pigment that isn't there
        for (const std::string& name : c.applies_to) {
            INFO(name);
            const bool word = name == "warm-air" || name == "sun" || name == "every-plan" || name == "general";
            CHECK((word || presets().pigment(name) != nullptr));
        }
}
