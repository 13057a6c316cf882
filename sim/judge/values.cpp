#include "judge/values.h"

#include "grid/units.h"
#include "plan/coverage.h"
#include "reference/inscribed.h"
#include "reference/masses.h"
#include "reference/squint.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double crumb_m2 = 25e-6; // as squint takes them

reference::ValueMap sheet_map(const grid::Field<float>& lstar, const sheet::Geometry& g) {
    reference::ValueMap map{g.nx, g.ny, {}};
    map.lstar.reserve(static_cast<std::size_t>(g.nx) * g.ny);
    for (int j = 0; j < g.ny; ++j)
        map.lstar.insert(map.lstar.end(), lstar.row(j), lstar.row(j) + g.nx);
    return map;
}

/// Means weighted by coverage.
AreaValues area_values(const plan::Plan& p,
                       int area,
                       const reference::ValueMap& sheet,
                       const reference::ValueMap& ref,
                       const sheet::Geometry& g) {
    const grid::Field<float> cover = plan::coverage(p, area, g.nx, g.ny);
    double weight = 0, of_sheet = 0, of_reference = 0;
    for (int j = 0; j < g.ny; ++j)
        for (int i = 0; i < g.nx; ++i) {
            const double w = cover(i, j);
            weight += w, of_sheet += w * sheet.at(i, j);
            if (!ref.lstar.empty())
                of_reference += w * ref.at(i, j);
        }
    AreaValues v;
    v.area = plan::area_name(p, area);
    v.share = weight / (static_cast<double>(g.nx) * g.ny);
    v.sheet_L = weight > 0 ? of_sheet / weight : none;
    v.reference_L = weight > 0 && !ref.lstar.empty() ? of_reference / weight : none;
    return v;
}

Table confusion_of(const reference::Groups& a, const reference::Groups& b) {
    Table confusion(a.count, std::vector<double>(a.count, 0.0));
    for (std::size_t k = 0; k < a.group.size(); ++k)
        confusion[a.group[k]][b.group[k]] += 1;
    return confusion;
}

reference::Groups seen_from_afar(const reference::ValueMap& map, const Values& v, const sheet::Geometry& g) {
    return reference::group_with(reference::blurred(map, eye_blur_m(stands_back_m) / g.cell_m), v.reference_groups.thresholds);
}

std::vector<MassValues> mass_values(const Values& v, const reference::Groups& far, const reference::ValueMap& sheet, const sheet::Geometry& g) {
    const auto crumb_cells = static_cast<std::int64_t>(std::ceil(crumb_m2 / g.cell_area_m2()));
    const reference::Masses m = merged(find_masses(far, v.reference_L), v.reference_L, crumb_cells);
    const std::vector<reference::Inscribed> middle = reference::inscribed(m);
    std::vector<double> of_sheet(m.list.size(), 0.0);
    for (std::size_t p = 0; p < m.of.size(); ++p)
        of_sheet[m.of[p]] += sheet.lstar[p];
    const double cell_mm = grid::mm_from_m(g.cell_m);
    std::vector<MassValues> masses;
    for (std::size_t k = 0; k < m.list.size(); ++k) {
        const auto pixels = static_cast<double>(m.list[k].pixels);
        masses.push_back({m.list[k].group, (middle[k].x + 0.5) * cell_mm, (middle[k].y + 0.5) * cell_mm,
                          pixels / static_cast<double>(m.of.size()), m.list[k].mean_lstar, of_sheet[k] / pixels});
    }
    std::stable_sort(masses.begin(), masses.end(), [](const MassValues& a, const MassValues& b) { return a.share > b.share; });
    masses.resize(std::min(masses.size(), most_masses));
    return masses;
}

void compare_groups(Values& v, const sheet::Geometry& g) {
    const reference::Groups &a = v.reference_groups, &b = v.sheet_groups;
    const int n = a.count;
    const double cells = static_cast<double>(g.nx) * g.ny;
    v.confusion = confusion_of(a, b);
    double right = 0;
    for (int k = 0; k < n; ++k) {
        right += v.confusion[k][k];
        GroupValues row;
        row.from_L = k == 0 ? 0 : a.thresholds[k - 1];
        row.to_L = k + 1 == n ? 100 : a.thresholds[k];
        row.reference_share = static_cast<double>(a.pixels[k]) / cells;
        row.sheet_share = static_cast<double>(b.pixels[k]) / cells;
        row.reference_L = a.mean_lstar[k], row.sheet_L = b.mean_lstar[k];
        v.groups.push_back(row);
    }
    v.right_share = right / cells;
    v.kappa = weighted_kappa(v.confusion, unweighted(n));
    v.weighted_kappa = weighted_kappa(v.confusion, linear_weights(n));
}

} // namespace

double eye_blur_m(double away_m) {
    // A Gaussian leaves a grating exp(-2 π² s² / period²) of its contrast; its period is two stripes.
    const double period_m = 2 * away_m * resolves_arc_min * std::numbers::pi / (180 * 60);
    return period_m * std::sqrt(-std::log(contrast_left) / 2) / std::numbers::pi;
}

Values judge_values(const plan::Plan& p, const grid::Field<float>& lstar, const sheet::Geometry& g) {
    Values v;
    v.right_share = v.kappa = v.weighted_kappa = v.distant_kappa = none;
    const reference::ValueMap sheet = sheet_map(lstar, g);
    if (p.reference) {
        v.has_reference = true;
        const reference::ValueMap full = reference::value_map(p.reference->picture);
        const reference::Groups own = reference::group_values(full, p.reference->groups);
        v.reference_L = reference::resized(full, g.nx, g.ny);
        v.reference_groups = reference::group_with(v.reference_L, own.thresholds);
        v.sheet_groups = reference::group_with(sheet, own.thresholds);
        compare_groups(v, g);
        const reference::Groups far = seen_from_afar(v.reference_L, v, g);
        v.distant_kappa = weighted_kappa(confusion_of(far, seen_from_afar(sheet, v, g)), linear_weights(far.count));
        v.masses = mass_values(v, far, sheet, g);
    }
    for (int a = 0; a < static_cast<int>(p.areas.size()); ++a)
        v.areas.push_back(area_values(p, a, sheet, v.reference_L, g));
    v.areas.push_back(area_values(p, plan::whole_sheet, sheet, v.reference_L, g));
    return v;
}

} // namespace tidemark::judge
