#include "materials/presets.h"

#include "materials/read_tables_detail.h"
#include "materials/table_detail.h"

namespace tidemark::materials {

namespace {

template <class Preset> const Preset* find(const std::vector<Preset>& presets, const std::string& id) {
    for (const Preset& preset : presets)
        if (preset.id == id)
            return &preset;
    return nullptr;
}

/// read(table) when the file is a table at all, else its problem.
template <class Read>
void each(const std::filesystem::path& file, std::vector<grid::Problem>& problems, Read&& read) {
    try {
        read(read_table(file));
    } catch (const grid::BadInput& bad) {
        append(problems, bad.problems());
    }
}

} // namespace

Presets Presets::read(const std::filesystem::path& folder) {
    using Table = grid::CsvTable;
    Presets presets;
    std::vector<grid::Problem> problems;
    Whites whites;
    each(folder / "paper_spectra.csv", problems, [&](const Table& t) { whites = read_whites(t, problems); });
    each(folder / "papers.csv", problems, [&](const Table& t) { presets.papers = read_papers(t, whites, problems); });
    each(folder / "pigments.csv", problems, [&](const Table& t) { presets.pigments = read_pigments(t, problems); });
    each(folder / "rooms.csv", problems, [&](const Table& t) { presets.rooms = read_rooms(t, problems); });
    each(folder / "brushes.csv", problems, [&](const Table& t) { presets.brushes = read_brushes(t, problems); });
    if (!problems.empty())
        throw grid::BadInput(problems);
    return presets;
}

const Paper* Presets::paper(const std::string& id) const { return find(papers, id); }
const Pigment* Presets::pigment(const std::string& id) const { return find(pigments, id); }
const Room* Presets::room(const std::string& id) const { return find(rooms, id); }
const Brush* Presets::brush(const std::string& id) const { return find(brushes, id); }

} // namespace tidemark::materials
