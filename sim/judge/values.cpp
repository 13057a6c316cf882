#include "judge/values.h"

#include "plan/coverage.h"

#include <limits>

namespace tidemark::judge {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

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

void compare_groups(Values& v, const sheet::Geometry& g) {
    const reference::Groups &a = v.reference_groups, &b = v.sheet_groups;
    const int n = a.count;
    const double cells = static_cast<double>(g.nx) * g.ny;
    v.confusion.assign(n, std::vector<double>(n, 0.0));
    for (std::size_t k = 0; k < a.group.size(); ++k)
        v.confusion[a.group[k]][b.group[k]] += 1;
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

Values judge_values(const plan::Plan& p, const grid::Field<float>& lstar, const sheet::Geometry& g) {
    Values v;
    v.right_share = v.kappa = v.weighted_kappa = none;
    const reference::ValueMap sheet = sheet_map(lstar, g);
    if (p.reference) {
        v.has_reference = true;
        const reference::ValueMap full = reference::value_map(p.reference->picture);
        const reference::Groups own = reference::group_values(full, p.reference->groups);
        v.reference_L = reference::resized(full, g.nx, g.ny);
        v.reference_groups = reference::group_with(v.reference_L, own.thresholds);
        v.sheet_groups = reference::group_with(sheet, own.thresholds);
        compare_groups(v, g);
    }
    for (int a = 0; a < static_cast<int>(p.areas.size()); ++a)
        v.areas.push_back(area_values(p, a, sheet, v.reference_L, g));
    v.areas.push_back(area_values(p, plan::whole_sheet, sheet, v.reference_L, g));
    return v;
}

} // namespace tidemark::judge
