/// The sheet that benches paint on: cold-pressed unless said otherwise, with two pigments and a sky wash of them.
#pragma once
#include "materials/presets.h"
#include "plan/plan.h"

namespace bench {

constexpr double quarter_width_m = 0.380;
constexpr int water = 0, sky = 1; ///< its mixes

/// As wide as said, 14/19 as high.
inline tidemark::plan::Plan
sheet_to_paint(const tidemark::materials::Presets& presets, double width_m, const char* paper = "cold-pressed-300") {
    tidemark::plan::Plan p;
    p.width_m = width_m, p.height_m = width_m * 14 / 19, p.seed = 7;
    p.paper = *presets.paper(paper);
    p.room = *presets.room("temperate-studio");
    p.pigments = {*presets.pigment("PB29"), *presets.pigment("PBr7-burnt-sienna")};
    p.mixes = {{.name = "water", .pigments = {}},
               {.name = "sky", .pigments = {{0, 0.010}, {1, 0.005}}, .gum_mass_fraction = 0.009}};
    return p;
}

} // namespace bench
