/// Small plans made in code.
#pragma once
#include <cmath>
#include <utility>
#include <vector>

#include "materials/presets.h"
#include "plan/plan.h"

namespace tidemark::scene {

/// A sheet of 60 × 30 mm, cold-pressed, sealed board, temperate room; mix 0 is water, then one mix a pigment.
inline plan::Plan small_sheet(const std::vector<std::pair<const char*, double>>& pigment_percent,
                              const char* paper = "cold-pressed-300") {
    const auto presets = materials::Presets::read(TIDEMARK_PRESETS_DIR);
    plan::Plan p;
    p.width_m = 0.060, p.height_m = 0.030;
    p.paper = *presets.paper(paper);
    p.room = *presets.room("temperate-studio");
    p.seed = 3;
    p.mixes.push_back({.name = "water", .pigments = {}});
    for (const auto& [id, percent] : pigment_percent) {
        p.pigments.push_back(*presets.pigment(id));
        p.mixes.push_back({.name = id,
                           .pigments = {{static_cast<int>(p.pigments.size()) - 1, percent / 100}},
                           .gum_mass_fraction = 0.6 * percent / 100});
    }
    return p;
}

/// An area from x0 to x1 over the whole height, or a margin of `inset_m` above and below.
inline int add_band(plan::Plan& p, const char* name, double x0_m, double x1_m, double inset_m = 0) {
    constexpr double pixel_m = 0.25e-3;
    grid::GreyPicture mask;
    mask.width = static_cast<int>(std::lround(p.width_m / pixel_m));
    mask.height = static_cast<int>(std::lround(p.height_m / pixel_m));
    for (int y = 0; y < mask.height; ++y)
        for (int x = 0; x < mask.width; ++x) {
            const double xm = (x + 0.5) * pixel_m, ym = (y + 0.5) * pixel_m;
            mask.value.push_back(xm > x0_m && xm < x1_m && ym > inset_m && ym < p.height_m - inset_m ? 1.0f : 0.0f);
        }
    p.areas.push_back({.name = name, .file = name, .mask = mask});
    return static_cast<int>(p.areas.size()) - 1;
}

inline void add_step(plan::Plan& p, const char* name, double at_s, plan::Act act) {
    p.steps.push_back({.name = name, .line = 1, .start = plan::AtTime{at_s}, .act = act});
}

} // namespace tidemark::scene
