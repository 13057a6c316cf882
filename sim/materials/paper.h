/// What a sheet of paper is. presets/papers.csv, one row a paper; columns and units as the fields below say.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "colour/spectrum.h"
#include "grid/problem.h"

namespace tidemark::materials {

constexpr double least_white = 0.05; ///< below k1 = 0.03 there is no sheet under the surface

struct Paper {
    std::string id = "cold-pressed-300";
    double basis_kg_m2 = 0.300;        ///< dry fibre; 0.05 ... 1.5
    double caliper_m = 0.56e-3;        ///< 0.05e-3 ... 3e-3
    double capacity_kg_m2 = 0.44;      ///< water that painting brings into the sheet, both halves; 0.02 ... 3
    double relief_rms_m = 28e-6;       ///< about the mean plane; 0 ... 200e-6
    double relief_corr_m = 0.9e-3;     ///< correlation length of the felt mark; 0.05e-3 ... 10e-3
    double held_m = 30e-6;             ///< water in felt and shut valleys that does not flow; 0 ... 200e-6
    double sorptivity_front_m_s05 = 5.82e-6; ///< 1e-7 ... 3e-4
    double sorptivity_back_m_s05 = 6.47e-6;  ///< the same
    double theta_advancing_rad = 1.2217;     ///< water on the dry sheet; 0 ... π
    double theta_receding_rad = 0.1745;      ///< 0 ... theta_advancing
    double lateral_diffusivity_m2_s = 1.0e-9; ///< creep along the sheet; 0 ... 1e-6
    double through_diffusivity_m2_s = 6.3e-11; ///< between the faces; 1e-14 ... 1e-6
    /// Sorption isotherm (van den Berg & Bruin 1981). m0 kg/kg, 0.005 ... 0.2; C 2 ... 1000: below 2 there is no knee as
    /// paper has it, and at 1 sheet::activity_of_half has no answer; K 0.3 ... 0.99: at 1 it has a pole at saturation.
    double gab_m0 = 0.040, gab_C = 12, gab_K = 0.82;
    colour::Reflectance white;         ///< dry, as measured, gloss included; 0.05 ... 1
    std::string provenance;
    std::vector<grid::Problem> problems(const std::string& where) const; ///< empty when usable
};

} // namespace tidemark::materials
