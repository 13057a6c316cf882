#include "plan/schedule.h"

#include "grid/rows.h"
#include "plan/coverage.h"

#include <algorithm>
#include <cmath>

namespace tidemark::plan {

int predecessor(const std::vector<Step>& steps, int index) {
    const Start& start = steps[index].start;
    if (const AfterStep* after = std::get_if<AfterStep>(&start))
        return after->step;
    return std::holds_alternative<WhenStage>(start) ? index - 1 : -1;
}

std::vector<std::vector<int>> waiting_rings(const std::vector<Step>& steps) {
    const int count = static_cast<int>(steps.size());
    std::vector<std::vector<int>> rings;
    std::vector<int> seen_from(count, -1); // the walk that first came by
    for (int first = 0; first < count; ++first) {
        int k = first;
        while (k >= 0 && seen_from[k] < 0) {
            seen_from[k] = first;
            k = predecessor(steps, k);
        }
        if (k < 0 || seen_from[k] != first)
            continue; // an end, or a ring that is known
        std::vector<int> ring;
        for (int at = k; ring.empty() || at != k; at = predecessor(steps, at))
            ring.push_back(at);
        std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end()), ring.end());
        rings.push_back(ring);
    }
    return rings;
}

Next next_step(const std::vector<Step>& steps, const std::vector<double>& end_s, double hand_free_s) {
    Next next;
    for (int k = 0; k < static_cast<int>(steps.size()); ++k) {
        if (end_s[k] >= 0)
            continue;
        const int before = predecessor(steps, k);
        if (before >= 0 && end_s[before] < 0)
            continue;
        double ready_s = before >= 0 ? end_s[before] : 0;
        if (const AtTime* at = std::get_if<AtTime>(&steps[k].start))
            ready_s = at->time_s;
        if (const AfterStep* after = std::get_if<AfterStep>(&steps[k].start))
            ready_s += after->wait_s;
        const double start_s = std::max(ready_s, hand_free_s);
        if (next.step < 0 || start_s < next.start_s)
            next = {k, start_s};
    }
    return next;
}

double area_m2(const Plan& plan, int area) {
    const double sheet_m2 = plan.width_m * plan.height_m;
    if (area < 0)
        return sheet_m2;
    if (std::holds_alternative<Mask>(plan.areas[area].form)) {
        const std::vector<float>& mask = plan.areas[area].mask.value;
        const auto inside = std::count_if(mask.begin(), mask.end(), [](float v) { return v >= half_covered; });
        return sheet_m2 * static_cast<double>(inside) / static_cast<double>(mask.size());
    }
    constexpr double finest_cell_m = 0.5e-3, most_cells = 250'000;
    const double cell_m = std::max(finest_cell_m, std::sqrt(sheet_m2 / most_cells));
    const int nx = static_cast<int>(std::ceil(plan.width_m / cell_m));
    const int ny = static_cast<int>(std::ceil(plan.height_m / cell_m));
    const grid::Field<float> cover = coverage(plan, area, nx, ny);
    const double cells = grid::sum_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
        double sum = 0;
        for (int i = 0; i < nx; ++i)
            sum += cover(i, j);
        return sum;
    });
    return sheet_m2 * cells / (static_cast<double>(nx) * ny);
}

} // namespace tidemark::plan
