#include "hand/paths.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace tidemark::hand {

namespace {

double distance_m(const plan::Point& a, const plan::Point& b) {
    return std::sqrt((b.x_m - a.x_m) * (b.x_m - a.x_m) + (b.y_m - a.y_m) * (b.y_m - a.y_m));
}

/// Where a stroke, or one of its segments, comes nearest to each cell.
struct Nearest {
    grid::Field<double> distance2_m2, at_m;
};

/// see(i, j) for the cells whose centres may be within reach of the segment.
template <class See>
void around(const plan::Point& a, const plan::Point& b, double reach_m, double cell_m, int nx, int ny, See&& see) {
    const auto first = [&](double p, double q) {
        return std::max(0, static_cast<int>(std::floor((std::min(p, q) - reach_m) / cell_m)));
    };
    const auto last = [&](double p, double q, int n) {
        return std::min(n - 1, static_cast<int>(std::ceil((std::max(p, q) + reach_m) / cell_m)));
    };
    for (int j = first(a.y_m, b.y_m); j <= last(a.y_m, b.y_m, ny); ++j)
        for (int i = first(a.x_m, b.x_m); i <= last(a.x_m, b.x_m, nx); ++i)
            see(i, j);
}

void follow(const plan::Point& a, const plan::Point& b, double from_m, double reach_m, double cell_m, Nearest& n) {
    const double length_m = distance_m(a, b), ux = length_m > 0 ? (b.x_m - a.x_m) / length_m : 0,
                 uy = length_m > 0 ? (b.y_m - a.y_m) / length_m : 0;
    around(a, b, reach_m, cell_m, n.at_m.nx(), n.at_m.ny(), [&](int i, int j) {
        const double x = (i + 0.5) * cell_m - a.x_m, y = (j + 0.5) * cell_m - a.y_m;
        const double along = std::clamp(x * ux + y * uy, 0.0, length_m);
        const double dx = x - along * ux, dy = y - along * uy, d2 = dx * dx + dy * dy;
        if (d2 <= reach_m * reach_m && d2 < n.distance2_m2(i, j))
            n.distance2_m2(i, j) = d2, n.at_m(i, j) = from_m + along;
    });
}

} // namespace

double length_m(const std::vector<plan::Stroke>& strokes) {
    double sum = 0;
    for (const plan::Stroke& s : strokes)
        for (std::size_t k = 1; k < s.size(); ++k)
            sum += distance_m(s[k - 1], s[k]);
    return sum;
}

std::vector<Passed> cells_along(const grid::Field<float>& coverage,
                                double cell_m,
                                const std::vector<plan::Stroke>& strokes,
                                double reach_m) {
    constexpr double far = 1e30;
    const int nx = coverage.nx(), ny = coverage.ny();
    grid::Field<std::uint8_t> done(nx, ny);
    Nearest nearest{{nx, ny, far}, {nx, ny, 0.0}};
    std::vector<Passed> out;
    double from_m = 0;
    for (const plan::Stroke& s : strokes) {
        const std::size_t before = out.size();
        for (std::size_t k = 1; k < s.size(); ++k) {
            follow(s[k - 1], s[k], from_m, reach_m, cell_m, nearest);
            from_m += distance_m(s[k - 1], s[k]);
        }
        // Gathered segment by segment, and forgotten for the next stroke.
        for (std::size_t k = 1; k < s.size(); ++k)
            around(s[k - 1], s[k], reach_m, cell_m, nx, ny, [&](int i, int j) {
                if (nearest.distance2_m2(i, j) < far && coverage(i, j) >= painted && !done(i, j)) {
                    done(i, j) = 1;
                    out.push_back({{i, j}, nearest.at_m(i, j)});
                }
                nearest.distance2_m2(i, j) = far;
            });
        std::sort(out.begin() + static_cast<std::ptrdiff_t>(before), out.end(), [](const Passed& a, const Passed& b) {
            return std::tuple(a.at_m, a.cell.j, a.cell.i) < std::tuple(b.at_m, b.cell.j, b.cell.i);
        });
    }
    return out;
}

} // namespace tidemark::hand
