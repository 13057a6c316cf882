/// What is under the pointer at a moment: a painter's words first, numbers second.
#pragma once
#include "viewer/studio/run.h"

#include <string>
#include <utility>
#include <vector>

namespace tidemark::viewer {

struct UnderGlass {
    double x_mm = 0, y_mm = 0;
    double lstar = 0;            ///< as it will dry
    double reference_lstar = -1; ///< below 0: no reference
    double film_um = 0;
    double moisture_share = 0;   ///< 0 ... 1 of what the paper holds
    int stage = 3;               ///< sheet::CellStage
    double next_stage_min = -1;  ///< minutes from this moment until the next; below 0: it stays, or is not known yet
    int next_stage = 3;
    std::vector<std::pair<std::string, double>> pigments_g_m2; ///< those that are there, the most first
    std::vector<std::string> areas; ///< of the plan, that cover the place; those painted last first
    std::string edge;            ///< "soft", when within `edge_reach_mm` of a judged edge; empty: none
    std::string edge_between;    ///< "far-trees | sky"
    double edge_width_mm = 0;    ///< NaN: no contrast to measure
    bool edge_is_draft = false;
    std::string words;           ///< "moist, the sheen is breaking; damp in 2 min"
};
constexpr double edge_reach_mm = 3;

/// Nothing beyond the sheet, or while there is no moment.
std::optional<UnderGlass> under_glass(const Run&, double time_s, double x_mm, double y_mm);
/// The same of a moment of that run which has these parts, for many places: unpacking it takes longer than looking.
constexpr unsigned glass_parts = part_dried | part_water | part_pigments;
std::optional<UnderGlass> under_glass(const Run&, const Moment&, double time_s, double x_mm, double y_mm);

} // namespace tidemark::viewer
