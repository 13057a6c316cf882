#include "reference/lights_to_save.h"

#include "grid/problem.h"
#include "grid/within.h"
#include "reference/edge_width.h"
#include "reference/inscribed.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::reference {

namespace {

/// What the neighbours of a mass measure, by length of border; the mass's own value when it has none.
double surroundings_lstar(const Masses& m, int mass) {
    double sum = 0, length = 0;
    for (const Border& b : m.list[mass].neighbours) {
        sum += static_cast<double>(b.length) * m.list[b.mass].mean_lstar;
        length += static_cast<double>(b.length);
    }
    return length > 0 ? sum / length : m.list[mass].mean_lstar;
}

std::vector<int> light_masses(const Masses& m, const std::optional<int>& light_from) {
    const int from = light_from.value_or(lightest_group(m));
    std::vector<int> lights;
    for (std::size_t k = 0; k < m.list.size(); ++k)
        if (m.list[k].group >= from)
            lights.push_back(static_cast<int>(k));
    return lights;
}

/// Masses of the finer map that merging has taken into something darker.
std::vector<int> lights_in_darks(const Masses& masses, const Masses& fine) {
    std::vector<std::int64_t> in_darker(fine.list.size());
    for (std::size_t p = 0; p < fine.of.size(); ++p)
        in_darker[fine.of[p]] += masses.list[masses.of[p]].group < fine.list[fine.of[p]].group;
    std::vector<int> lights;
    for (std::size_t k = 0; k < fine.list.size(); ++k) {
        const Mass& mass = fine.list[k];
        const bool lighter = std::all_of(mass.neighbours.begin(), mass.neighbours.end(),
                                         [&](const Border& b) { return fine.list[b.mass].group < mass.group; });
        if (lighter && 2 * in_darker[k] > mass.pixels)
            lights.push_back(static_cast<int>(k));
    }
    return lights;
}

void add(const Masses& m, const std::vector<int>& which, bool fine, double pixels_per_mm, double smallest_mm2,
         std::vector<Light>& lights) {
    const std::vector<Inscribed> circles = inscribed(m);
    for (const int mass : which) {
        Light l;
        l.fine = fine, l.mass = mass;
        l.at = {(circles[mass].x + 0.5) / pixels_per_mm, (circles[mass].y + 0.5) / pixels_per_mm};
        l.area_mm2 = static_cast<double>(m.list[mass].pixels) / (pixels_per_mm * pixels_per_mm);
        l.width_mm = circles[mass].width_pixels / pixels_per_mm;
        l.contrast_lstar = m.list[mass].mean_lstar - surroundings_lstar(m, mass);
        if (l.area_mm2 >= smallest_mm2)
            lights.push_back(l);
    }
}

void measure_edges(const Masses& m, const ValueMap& map, bool fine, double pixels_per_mm, double reach_mm,
                   std::vector<Light>& lights) {
    std::vector<int> which;
    std::vector<double> across_pixels;
    for (const Light& l : lights)
        if (l.fine == fine)
            which.push_back(l.mass), across_pixels.push_back(l.width_mm * pixels_per_mm);
    const std::vector<double> widths = edge_widths(m, map, which, across_pixels, reach_mm * pixels_per_mm);
    auto next = widths.begin();
    for (Light& l : lights)
        if (l.fine == fine)
            l.edge_mm = *next++ / pixels_per_mm;
}

void decide(const Saving& how, Light& l) {
    const bool soft = l.edge_mm >= how.soft_mm, little = l.contrast_lstar <= how.lift_lstar; // NaN: not soft
    if (soft && little) {
        l.keep = Keep::lift;
        l.reason = fmt::format("its edge runs out over {:.0f} mm and it is only {:.0f} L* lighter than what is round it: "
                               "lift it out of the damp wash",
                               l.edge_mm, l.contrast_lstar);
    } else if (l.width_mm < how.mark_mm) {
        l.keep = Keep::reserve;
        l.reason = fmt::format("{:.1f} mm at its widest, less than the brush's mark of {:g} mm: reserve it, or put it in with "
                               "body colour at the end",
                               l.width_mm, how.mark_mm);
    } else {
        l.keep = Keep::round;
        l.reason = soft ? fmt::format("{:.0f} mm wide, and {:.0f} L* lighter than what is round it, more than lifting makes: "
                                      "paint round it, and soften its edge over {:.0f} mm",
                                      l.width_mm, l.contrast_lstar, l.edge_mm)
                        : fmt::format("{:.0f} mm wide: paint round it", l.width_mm);
    }
}

void check(double pixels_per_mm, const Saving& how) {
    const grid::Allowed mm{0, 100, "mm"};
    grid::within("pixels_per_mm", pixels_per_mm, {1e-3, 1000, "pixels/mm"});
    grid::within("mark_mm", how.mark_mm, mm);
    grid::within("soft_mm", how.soft_mm, mm);
    grid::within("lift_lstar", how.lift_lstar, {0, 100, "L*"});
    grid::within("smallest_mm2", how.smallest_mm2, {0, 1e6, "mm²"});
    grid::within("reach_mm", how.reach_mm, {0.1, 100, "mm"});
}

} // namespace

const char* word(Keep k) { return k == Keep::round ? "paint round" : k == Keep::reserve ? "reserve" : "lift"; }

std::vector<Light> lights_to_save(const Masses& masses, const Masses& fine, const ValueMap& map, double pixels_per_mm,
                                  const Saving& how) {
    check(pixels_per_mm, how);
    if (fine.of.size() != masses.of.size() || map.lstar.size() != masses.of.size())
        throw grid::InternalError("lights to save: masses, finer masses and values are of different sizes");
    std::vector<Light> lights;
    add(masses, light_masses(masses, how.light_from), false, pixels_per_mm, how.smallest_mm2, lights);
    add(fine, lights_in_darks(masses, fine), true, pixels_per_mm, how.smallest_mm2, lights);
    const auto strikes = [](const Light& l) { return l.contrast_lstar * std::sqrt(l.area_mm2); };
    std::stable_sort(
        lights.begin(), lights.end(), [&](const Light& a, const Light& b) { return strikes(a) > strikes(b); });
    lights.resize(std::min(lights.size(), static_cast<std::size_t>(std::max(0, how.most))));
    measure_edges(masses, map, false, pixels_per_mm, how.reach_mm, lights);
    measure_edges(fine, map, true, pixels_per_mm, how.reach_mm, lights);
    for (Light& l : lights)
        decide(how, l);
    return lights;
}

} // namespace tidemark::reference
