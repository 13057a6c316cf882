/// A brush. presets/brushes.csv.
#pragma once
#include <string>
#include <vector>

#include "grid/problem.h"

namespace tidemark::materials {

struct Brush {
    std::string id;             ///< "round-12"
    std::string kind;           ///< round, flat, mop
    double size_m = 8e-3;        ///< belly of a round or mop, width of a flat; 0.5e-3 ... 0.2
    double hold_m3 = 1.45e-6;    ///< charged and touched to the rim; 1e-9 ... 1e-4
    double release_m3 = 1.01e-6; ///< what reaches a wash before the mark breaks; 1e-9 ... hold_m3
    double mark_min_m = 1e-3;    ///< 0.05e-3 ... mark_max_m
    double mark_max_m = 15e-3;   ///< ... 0.2
    std::string provenance;
    std::vector<grid::Problem> problems(const std::string& where) const;
};

} // namespace tidemark::materials
