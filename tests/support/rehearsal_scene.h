/// Small plans played, and what a painter would read off the dried sheet.
#pragma once
#include <algorithm>
#include <cmath>
#include <vector>

#include "rehearsal/rehearsal.h"
#include "sheet/look.h"
#include "support/small_plan.h"

namespace tidemark::scene {

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
