/// What a pigment is. presets/pigments.csv, one row a pigment, by Colour Index generic name.
#pragma once
#include <string>
#include <vector>

#include "colour/spectrum.h"
#include "grid/problem.h"

namespace tidemark::materials {

struct Pigment {
    std::string id;                  ///< "PB29"
    std::string name;                ///< "ultramarine blue"
    double density_kg_m3 = 2000;     ///< 1001 ... 12000
    double d50_m = 1e-6;             ///< volume median of the dispersed grain; 1e-9 ... 100e-6
    double gsd = 1.8;                ///< geometric standard deviation; 1 ... 5
    double staining = 0.5;           ///< share left after rewetting and scrubbing; 0 ... 1
    double flocculation = 0.4;       ///< floc size = d50 (1 + 2 f), solid share 0.4; 0 ... 1
    colour::Bands K_m2_kg{}, S_m2_kg{}; ///< 0 ... 1e5; belong to colour::dry_matt
    std::string caution;             ///< low, medium, high
    std::string provenance;
    std::vector<grid::Problem> problems(const std::string& where) const;
};

} // namespace tidemark::materials
