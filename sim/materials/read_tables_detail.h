/// One function a preset table; problems are added to `problems`, good rows returned.
#pragma once
#include "grid/csv.h"
#include "materials/presets.h"

#include <map>

namespace tidemark::materials {

using Whites = std::map<std::string, colour::Reflectance>; ///< by column of paper_spectra.csv

Whites read_whites(const grid::CsvTable&, std::vector<grid::Problem>& problems);
std::vector<Paper> read_papers(const grid::CsvTable&, const Whites&, std::vector<grid::Problem>& problems);
std::vector<Pigment> read_pigments(const grid::CsvTable&, std::vector<grid::Problem>& problems);
std::vector<Room> read_rooms(const grid::CsvTable&, std::vector<grid::Problem>& problems);
std::vector<Brush> read_brushes(const grid::CsvTable&, std::vector<grid::Problem>& problems);

} // namespace tidemark::materials
