// Every table, broken in one cell, is refused by file, row and column.
#include "materials/cautions.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "materials/presets.h"
#include "materials/read_tables_detail.h"

#include <array>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

namespace fs = std::filesystem;
using namespace tidemark;

namespace {

/// A copy of the presets, thrown away at the end.
class Copy {
  public:
    Copy() {
        folder = fs::temp_directory_path() / ("tidemark-materials-" + std::to_string(getpid()));
        fs::remove_all(folder);
        fs::create_directories(folder);
        for (const auto& entry : fs::directory_iterator(TIDEMARK_PRESETS_DIR))
            if (entry.path().extension() == ".csv")
                fs::copy(entry.path(), folder / entry.path().filename());
    }
    ~Copy() { fs::remove_all(folder); }
    void change(const std::string& file, const std::string& from, const std::string& to) const {
        std::string text = grid::read_text(folder / file);
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        std::ofstream(folder / file, std::ios::binary) << text.replace(at, from.size(), to);
    }
    /// What the reader says, without the folder; empty when it reads.
    std::string said() const {
        try {
            materials::Presets::read(folder);
            materials::read_cautions(folder);
            return {};
        } catch (const grid::BadInput& bad) {
            std::string text = bad.what();
            const std::string prefix = folder.string() + "/";
            for (std::size_t at; (at = text.find(prefix)) != std::string::npos;)
                text.erase(at, prefix.size());
            return text;
        }
    }
    fs::path folder;
};

} // namespace

TEST_CASE("untouched presets read", "[materials]") {
    const Copy copy;
    CHECK(copy.said() == "");
}

TEST_CASE("a value out of range is refused by file, row and column", "[wrong][materials]") {
    const Copy copy;
    copy.change("papers.csv", "hot-pressed-185,185,0.26", "hot-pressed-185,185,26");
    CHECK(copy.said() == "papers.csv:11: paper \"hot-pressed-185\": caliper_mm is 26; allowed: 0.05 to 3");
}

TEST_CASE("paper denser than its fibres is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("papers.csv", "hot-pressed-185,185,0.26", "hot-pressed-185,185,0.1");
    CHECK(copy.said() == "papers.csv:11: paper \"hot-pressed-185\": basis_g_m2 / caliper_mm makes 1850 kg/m³, denser "
                         "than its fibres; allowed: less than 1540");
}

TEST_CASE("a receding angle above the advancing one is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("papers.csv", ",80,15,", ",15,80,");
    CHECK(copy.said() == "papers.csv:11: paper \"hot-pressed-185\": theta_receding_deg is 80; allowed: at most "
                         "theta_advancing_deg, 15");
}

TEST_CASE("text where a number belongs is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("pigments.csv", "PB29,ultramarine blue,2340", "PB29,ultramarine blue,heavy");
    CHECK(copy.said() == "pigments.csv:10: column \"density_kg_m3\" is \"heavy\"; allowed: a number");
}

TEST_CASE("numbers that are not finite are refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("pigments.csv", "PB29,ultramarine blue,2340", "PB29,ultramarine blue,nan");
    copy.change("rooms.csv", "temperate-studio,20", "temperate-studio,inf");
    CHECK(copy.said() == "pigments.csv:10: column \"density_kg_m3\" is \"nan\"; allowed: a number\n"
                         "rooms.csv:6: column \"temperature_C\" is \"inf\"; allowed: a number");
}

TEST_CASE("negative absorption is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("pigments.csv", "51.63", "-51.63");
    CHECK(copy.said() == "pigments.csv:10: pigment \"PB29\": K_400_m2_kg is -51.63; allowed: 0 to 100000");
}

TEST_CASE("a row with a cell too few is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("rooms.csv", "temperate-studio,20,", "temperate-studio,");
    CHECK(copy.said() == "rooms.csv:6: 8 cells; allowed: 9, as in the header");
}

TEST_CASE("a misspelt column is refused with the nearest one", "[wrong][materials]") {
    const Copy copy;
    copy.change("brushes.csv", "hold_mL,", "holds_mL,");
    CHECK(copy.said() == "brushes.csv: no column \"hold_mL\"; did you mean \"holds_mL\"?");
}

TEST_CASE("an id that is there twice is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("rooms.csv", "humid-summer", "temperate-studio");
    CHECK(copy.said() == "rooms.csv:7: id \"temperate-studio\" is there twice");
}

TEST_CASE("a white that no column holds is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("papers.csv", ",natural,", ",snow,");
    CHECK(copy.said() ==
          "papers.csv:11: column \"white\" is \"snow\"; allowed: a column of paper_spectra.csv: cream, "
          "high_white, natural");
}

TEST_CASE("spectra on other bands are refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("paper_spectra.csv", "\n420,", "\n410,");
    CHECK(copy.said() == "paper_spectra.csv:5: band_nm is 410; allowed: 420 in this row");
}

// As the program reads it such a table is refused earlier; whoever has the table in hand must not fall either.
TEST_CASE("spectra without a row are refused by the table's name", "[wrong][materials]") {
    std::vector<grid::Problem> problems;
    CHECK(materials::read_whites(grid::CsvTable::parse("band_nm,natural\n", "paper_spectra.csv"), problems).empty());
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].line() == "paper_spectra.csv: 0 bands; allowed: 16, from 400 to 700 nm by 20");
}

TEST_CASE("a brush that gives more than it holds is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("brushes.csv", "15,0.11,0.08", "15,0.08,0.11");
    CHECK(copy.said() ==
          "brushes.csv:8: brush \"round-4\": release_mL is more than hold_mL; allowed: at most hold_mL");
}

TEST_CASE("a caution of unknown level is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("cautions.csv", ",high,", ",dreadful,");
    CHECK(copy.said() == "cautions.csv:6: caution \"PO20, PY35, PR108 (cadmium)\": level is \"dreadful\"; allowed: "
                         "note, low, medium, high");
}

TEST_CASE("missing and empty tables are reported together", "[wrong][materials]") {
    const Copy copy;
    fs::remove(copy.folder / "rooms.csv");
    std::ofstream(copy.folder / "brushes.csv") << "id,kind\n";
    CHECK(copy.said() == "rooms.csv: no such file\nbrushes.csv: no row below the header; allowed: at least one");
}

TEST_CASE("an isotherm that can't be turned round is refused", "[wrong][materials]") {
    const Copy copy;
    copy.change("papers.csv", "8.0e-10,5.5e-11,0.04,12.0,", "8.0e-10,5.5e-11,0.04,1,");
    CHECK(copy.said() == "papers.csv:11: paper \"hot-pressed-185\": gab_C is 1; allowed: 2 to 1000");
}

TEST_CASE("a white out of range is refused once, where it stands, whether a paper has it or not", "[wrong][materials]") {
    for (const auto& [from, to, line] :
         {std::array{"0.79,0.6,from memory", "0.79,1.6,from memory", "cream is 1.6"},
          std::array{"400,0.735,", "400,0.02,", "natural is 0.02"}}) {
        const Copy copy;
        copy.change("paper_spectra.csv", from, to);
        CHECK(copy.said() == "paper_spectra.csv:4: " + std::string(line) + "; allowed: 0.05 to 1");
    }
}
