/// Small plans made in code, and what a painter would read off the dried sheet.
#pragma once
#include <algorithm>
#include <cmath>
#include <vector>

#include "materials/presets.h"
#include "rehearsal/rehearsal.h"
#include "sheet/look.h"

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

/// Mean L* of the dried look by column, over the middle half of the rows.
inline std::vector<double> lightness_across(const sheet::SheetState& s) {
    const sheet::Look look = sheet::look(s, sheet::LookAs::dried);
    std::vector<double> mean(s.geometry.nx);
    const int from = s.geometry.ny / 4, to = s.geometry.ny - from;
    for (int i = 0; i < s.geometry.nx; ++i) {
        for (int j = from; j < to; ++j) mean[i] += look.lstar(i, j);
        mean[i] /= to - from;
    }
    return mean;
}

/// 10-90 % width, mm, of the change between a dark left and a light right plateau; the plateaus are the means of
/// columns [0.15, 0.25] and [0.85, 0.95] of the sheet.
inline double width_10_90_mm(const std::vector<double>& l, double cell_m) {
    const auto plateau = [&](double from, double to) {
        double sum = 0;
        int n = 0;
        for (std::size_t i = static_cast<std::size_t>(from * l.size()); i < to * l.size(); ++i) sum += l[i], ++n;
        return sum / n;
    };
    const double dark = plateau(0.15, 0.25), light = plateau(0.85, 0.95);
    const auto last_below = [&](double level) { // sub-cell, from the light side
        for (std::size_t i = l.size() - 1; i > 0; --i)
            if (l[i - 1] < level && l[i] >= level) return i - 1 + (level - l[i - 1]) / (l[i] - l[i - 1]);
        return 0.0;
    };
    const double at10 = last_below(dark + 0.1 * (light - dark)), at90 = last_below(dark + 0.9 * (light - dark));
    return (at90 - at10) * cell_m * 1e3;
}

inline rehearsal::Rehearsal played(const plan::Plan& p, double cell_m, double until_s = 0) {
    rehearsal::Rehearsal r(p, {.cell_m = cell_m, .until_s = until_s});
    while (r.step()) {}
    return r;
}

} // namespace tidemark::scene
