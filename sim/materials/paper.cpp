#include "materials/paper.h"

#include "grid/units.h"
#include "materials/range_detail.h"

#include <fmt/format.h>

namespace tidemark::materials {

namespace {

/// A fibre wall's own density: dry cellulose, kg/m³ (from memory). Paper denser than that has no pores.
constexpr double cell_wall_kg_m3 = 1540;
constexpr double deg_from_rad = 57.29577951308232;

void check_white(Ranges& check, const colour::Reflectance& white) {
    for (int k = 0; k < colour::bands; ++k) {
        const std::string band = fmt::format("white at {} nm", colour::first_band_nm + k * colour::band_step_nm);
        check.within(band, white.at[k], least_white, 1.0);
    }
}

} // namespace

std::vector<grid::Problem> Paper::problems(const std::string& where) const {
    Ranges check(where, fmt::format("paper \"{}\"", id));
    check.not_empty("id", id);
    check.within("basis_g_m2", grid::g_m2_from_kg_m2(basis_kg_m2), 50, 1500);
    check.within("caliper_mm", grid::mm_from_m(caliper_m), 0.05, 3);
    check.within("capacity_kg_m2", capacity_kg_m2, 0.02, 3);
    check.within("relief_rms_um", grid::um_from_m(relief_rms_m), 0, 200);
    check.within("relief_corr_mm", grid::mm_from_m(relief_corr_m), 0.05, 10);
    check.within("held_um", grid::um_from_m(held_m), 0, 200);
    check.within("sorptivity_front_m_s05", sorptivity_front_m_s05, 1e-7, 3e-4);
    check.within("sorptivity_back_m_s05", sorptivity_back_m_s05, 1e-7, 3e-4);
    const double advancing_deg = theta_advancing_rad * deg_from_rad, receding_deg = theta_receding_rad * deg_from_rad;
    check.within("theta_advancing_deg", advancing_deg, 0, 180);
    check.within("theta_receding_deg", receding_deg, 0, 180);
    check.require(!(receding_deg > advancing_deg + 1e-9), fmt::format("theta_receding_deg is {:.6g}", receding_deg),
                  fmt::format("at most theta_advancing_deg, {:.6g}", advancing_deg));
    check.within("lateral_diffusivity_m2_s", lateral_diffusivity_m2_s, 0, 1e-6);
    check.within("through_diffusivity_m2_s", through_diffusivity_m2_s, 1e-14, 1e-6);
    check.within("gab_m0", gab_m0, 0.005, 0.2);
    check.within("gab_C", gab_C, 2, 1000); // at 1 activity_of_half has no answer
    check.within("gab_K", gab_K, 0.3, 0.99); // at 1 the isotherm has a pole at saturation
    const double density = basis_kg_m2 / caliper_m;
    check.require(!(density >= cell_wall_kg_m3),
                  fmt::format("basis_g_m2 / caliper_mm makes {:.4g} kg/m³, denser than its fibres", density),
                  fmt::format("less than {}", cell_wall_kg_m3));
    check_white(check, white);
    return std::move(check).problems();
}

} // namespace tidemark::materials
