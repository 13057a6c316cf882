/// Every preset, read from one folder: papers.csv, paper_spectra.csv, pigments.csv, rooms.csv, brushes.csv.
/// A bad row or value is BadInput with file, row and column; all problems of all files at once.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "materials/brush.h"
#include "materials/paper.h"
#include "materials/pigment.h"
#include "materials/room.h"

namespace tidemark::materials {

struct Presets {
    std::vector<Paper> papers;
    std::vector<Pigment> pigments;
    std::vector<Room> rooms;
    std::vector<Brush> brushes;

    static Presets read(const std::filesystem::path& folder);
    const Paper* paper(const std::string& id) const;   ///< nullptr when unknown
    const Pigment* pigment(const std::string& id) const;
    const Room* room(const std::string& id) const;
    const Brush* brush(const std::string& id) const;
};

} // namespace tidemark::materials
