#include "reference/edge_width.h"

#include "grid/rows.h"
#include "reference/step_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <span>

namespace tidemark::reference {

namespace {

constexpr int most_places = 256;
constexpr double step_pixels = 0.5, least_step_lstar = 2;
constexpr double least_explained = 0.5;  // of the values' variance
constexpr double least_places = 0.1;     // of all: a texture has steps by chance
constexpr double even_lstar = 1;         // what varies less has no other edge
constexpr int half_a_hard_edge = 2;      // steps
constexpr double narrowest_pixels = 0.8; // a hard step between two pixels, read between them
constexpr long work_of_place = 10'000;   // in cells of a light loop

struct Pixel {
    int x = 0, y = 0;
};
struct Vector {
    double x = 0, y = 0;
};

double between(const ValueMap& map, double x, double y) { // x, y: 0 is the middle of the first pixel
    x = std::clamp(x, 0.0, map.width - 1.0), y = std::clamp(y, 0.0, map.height - 1.0);
    const int i = std::min(static_cast<int>(x), std::max(0, map.width - 2)), k = std::min(i + 1, map.width - 1);
    const int j = std::min(static_cast<int>(y), std::max(0, map.height - 2)), l = std::min(j + 1, map.height - 1);
    const double u = x - i, v = y - j;
    return (1 - v) * ((1 - u) * map.at(i, j) + u * map.at(k, j)) + v * ((1 - u) * map.at(i, l) + u * map.at(k, l));
}

/// Outwards, of length 1. None where the mass lies alike to all sides.
std::optional<Vector> normal(const Masses& m, const Pixel& p) {
    constexpr int radius = 3;
    const int mass = m.at(p.x, p.y);
    Vector n;
    for (int dy = -radius; dy <= radius; ++dy)
        for (int dx = -radius; dx <= radius; ++dx) {
            const int x = p.x + dx, y = p.y + dy;
            if (dx * dx + dy * dy > radius * radius || x < 0 || y < 0 || x >= m.width || y >= m.height)
                continue;
            const double out = m.at(x, y) == mass ? -1 : 1;
            n.x += out * dx, n.y += out * dy;
        }
    const double length = std::sqrt(n.x * n.x + n.y * n.y);
    if (length < 0.5)
        return std::nullopt;
    return Vector{n.x / length, n.y / length};
}

/// Any way out is as good as another.
Vector first_side_out(const Masses& m, const Pixel& p) {
    const int mass = m.at(p.x, p.y);
    for (const auto& [dx, dy] : {Pixel{1, 0}, {-1, 0}, {0, 1}, {0, -1}})
        if (p.x + dx >= 0 && p.y + dy >= 0 && p.x + dx < m.width && p.y + dy < m.height && m.at(p.x + dx, p.y + dy) != mass)
            return {static_cast<double>(dx), static_cast<double>(dy)};
    return {1, 0};
}

/// Values across the edge, outwards: what lies in the mass, and behind it what does not, as far as both go on.
struct Across {
    std::vector<double> value;
    int inside = 0; ///< how many of them lie in the mass
};

Across across(const Masses& m, const ValueMap& map, const Pixel& p, const Vector& n, double in, double out) {
    const int mass = m.at(p.x, p.y);
    const auto place = [&](int k) { return Vector{p.x + k * step_pixels * n.x, p.y + k * step_pixels * n.y}; };
    enum class Where { inside, outside, beyond };
    const auto where = [&](int k) {
        const auto [x, y] = place(k);
        const int i = static_cast<int>(std::lround(x)), j = static_cast<int>(std::lround(y));
        if (i < 0 || j < 0 || i >= m.width || j >= m.height)
            return Where::beyond;
        return m.at(i, j) == mass ? Where::inside : Where::outside;
    };
    int first = 0, last = 0;
    while (first > -static_cast<int>(std::floor(in / step_pixels)) && where(first - 1) == Where::inside)
        --first;
    const int farthest = static_cast<int>(std::ceil(out / step_pixels));
    while (last < farthest && where(last + 1) == Where::inside) // the pixel's own other half
        ++last;
    Across a{{}, last - first + 1};
    while (last < farthest && where(last + 1) == Where::outside)
        ++last;
    for (int k = first; k <= last; ++k)
        a.value.push_back(between(map, place(k).x, place(k).y));
    return a;
}

/// Pixels; none where the picture shows no edge.
std::optional<double> width_of(const StepFit& fit, const Across& a) {
    std::span<const double> row = a.value;
    int boundary = a.inside; // the first value outside
    for (;;) {
        const auto step = fit.falling(row);
        if (!step || -step->change < least_step_lstar)
            return std::nullopt;
        // Another edge before or behind: three levels leave far less than the one step. The row ends before it begins.
        const int n = static_cast<int>(row.size());
        const bool rough = step->residual > n * even_lstar * even_lstar;
        const ThreeLevels t = rough && n > 3 ? three_levels(row) : ThreeLevels{0, 0, step->residual};
        if (t.residual > (1 - least_explained) * step->residual)
            return step->explained < least_explained ? std::nullopt : std::optional(step->width * step_pixels);
        if (std::abs(t.second - boundary) <= std::abs(t.third - boundary))
            row = row.first(std::max(1, t.third - half_a_hard_edge));
        else
            row = row.subspan(std::min(n - 1, t.second + half_a_hard_edge)), boundary = static_cast<int>(row.size()) - (n - boundary);
    }
}

/// Pixels with another mass on a side, by mass of `which`.
std::vector<std::vector<Pixel>> boundaries(const Masses& m, const std::vector<int>& which) {
    std::vector<int> index(m.list.size(), -1);
    for (std::size_t k = 0; k < which.size(); ++k)
        index[which[k]] = static_cast<int>(k);
    std::vector<std::vector<Pixel>> pixels(which.size());
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const int mass = m.at(x, y);
            if (index[mass] >= 0 && ((x > 0 && m.at(x - 1, y) != mass) || (x + 1 < m.width && m.at(x + 1, y) != mass) ||
                                     (y > 0 && m.at(x, y - 1) != mass) || (y + 1 < m.height && m.at(x, y + 1) != mass)))
                pixels[index[mass]].push_back({x, y});
        }
    return pixels;
}

} // namespace

std::vector<double> edge_widths(const Masses& m,
                                const ValueMap& map,
                                const std::vector<int>& which,
                                const std::vector<double>& across_pixels,
                                double reach_pixels) {
    const auto pixels = boundaries(m, which);
    const double outside = std::max(1.0, reach_pixels);
    const StepFit fit(narrowest_pixels / step_pixels, static_cast<int>((reach_pixels + outside) / step_pixels) + 3);
    std::vector<double> out;
    for (std::size_t k = 0; k < which.size(); ++k) {
        const double in = std::min(reach_pixels, 0.5 * across_pixels[k]);
        const int places = static_cast<int>(std::min<std::size_t>(pixels[k].size(), most_places));
        std::vector<std::optional<double>> found(places);
        grid::for_rows(places, work_of_place * places, [&](int i) {
            const Pixel& p = pixels[k][static_cast<std::size_t>(i) * pixels[k].size() / places];
            const Vector n = normal(m, p).value_or(first_side_out(m, p));
            found[i] = width_of(fit, across(m, map, p, n, in, outside));
        });
        std::vector<double> widths;
        for (const std::optional<double>& width : found)
            if (width)
                widths.push_back(*width);
        const auto middle = widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2);
        std::nth_element(widths.begin(), middle, widths.end());
        const bool told = !widths.empty() && static_cast<double>(widths.size()) >= least_places * places;
        out.push_back(told ? *middle : std::numeric_limits<double>::quiet_NaN());
    }
    return out;
}

} // namespace tidemark::reference
