// A table of presets or a lesson: each reader takes what has its columns. What it lets through must be a thing that the
// formulas take.
#include <string_view>

#include "fuzz/memory_file.h"
#include "grid/csv.h"
#include "grid/problem.h"
#include "materials/cautions.h"
#include "materials/read_tables_detail.h"
#include "plan/lesson.h"
#include "sheet/sheet_state.h"
#include "water/film.h"

using namespace tidemark;

namespace {

void use(const materials::Paper& paper) {
    const auto s = sheet::SheetState::make(8e-3, 8e-3, 4e-3, paper, {}, sheet::BoardKind::sealed, {}, 1);
    water::FilmParams::of(paper);
    sheet::relief_fill_m(paper);
    if (!(s.front_kg_m2(0, 0) >= 0)) std::abort();
}

template <class Read> void passing_over_bad(Read&& read) {
    try {
        read();
    } catch (const grid::BadInput& bad) {
        if (bad.problems().empty()) std::abort();
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t n) {
    static const trust::MemoryFile held;
    static const std::filesystem::path cautions = trust::named(held, "cautions.csv"), lesson = trust::named(held, "lesson.toml");
    const std::string_view text(reinterpret_cast<const char*>(bytes), n);
    passing_over_bad([&] {
        const auto table = grid::CsvTable::parse(text, "table.csv");
        std::vector<grid::Problem> problems;
        const materials::Whites whites = materials::read_whites(table, problems), natural{{"natural", colour::Reflectance{}}};
        for (const auto& paper : materials::read_papers(table, natural, problems)) use(paper);
        materials::read_pigments(table, problems);
        materials::read_rooms(table, problems);
        materials::read_brushes(table, problems);
    });
    held.hold(bytes, n);
    passing_over_bad([&] { materials::read_cautions(cautions.parent_path()); });
    passing_over_bad([&] { plan::read_lesson(lesson.parent_path()); });
    return 0;
}
