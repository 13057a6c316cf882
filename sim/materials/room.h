/// The air of the room, at the sheet. presets/rooms.csv.
#pragma once
#include <string>
#include <vector>

#include "grid/problem.h"

namespace tidemark::materials {

struct Room {
    std::string id = "temperate-studio";
    double temperature_K = 293.15;  ///< 273.15 ... 323.15
    double humidity = 0.50;         ///< relative, 0.01 ... 0.99
    double air_m_s = 0.15;          ///< at the sheet, 0 ... 20
    double sun_W_m2 = 0;            ///< falling on the sheet, 0 ... 1200
    double longwave_W_m2 = 0;       ///< net exchange with the sky beyond the walls', -200 ... 200
    double turbulence = 1;          ///< factor on the laminar flat plate, 0.5 ... 3
    std::string provenance;
    std::vector<grid::Problem> problems(const std::string& where) const;
};

} // namespace tidemark::materials
