#include "reference/edge_width.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace tidemark::reference {

namespace {

constexpr int most_places = 256;
constexpr double step_pixels = 0.5, least_step_lstar = 2;

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

std::optional<double> width_at(const ValueMap& map, const Pixel& p, const Vector& n, double in, double out) {
    const int first = -static_cast<int>(std::floor(in / step_pixels)), last = static_cast<int>(std::ceil(out / step_pixels));
    std::vector<double> l;
    for (int k = first; k <= last; ++k)
        l.push_back(between(map, p.x + k * step_pixels * n.x, p.y + k * step_pixels * n.y));
    const auto middle = l.begin() - first; // the boundary pixel: the light may be there, the dark beyond it
    const auto light = std::max_element(l.begin(), middle + 1);
    const double dark = *std::min_element(middle + 1, l.end()), step = *light - dark;
    if (step < least_step_lstar)
        return std::nullopt;
    const auto falls_below = [&](double level) {
        const auto below = std::find_if(light, l.end(), [&](double v) { return v < level; });
        return static_cast<double>(below - l.begin()) - (level - *below) / (*(below - 1) - *below);
    };
    return (falls_below(dark + 0.1 * step) - falls_below(dark + 0.9 * step)) * step_pixels;
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
    std::vector<double> out;
    for (std::size_t k = 0; k < which.size(); ++k) {
        const double in = std::min(reach_pixels, 0.5 * across_pixels[k]);
        const std::size_t places = std::min<std::size_t>(pixels[k].size(), most_places);
        std::vector<double> widths;
        for (std::size_t i = 0; i < places; ++i) {
            const Pixel& p = pixels[k][i * pixels[k].size() / places];
            const Vector n = normal(m, p).value_or(first_side_out(m, p));
            if (const auto width = width_at(map, p, n, in, std::max(1.0, reach_pixels)))
                widths.push_back(*width);
        }
        const auto middle = widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2);
        std::nth_element(widths.begin(), middle, widths.end());
        out.push_back(widths.empty() ? std::numeric_limits<double>::quiet_NaN() : *middle);
    }
    return out;
}

} // namespace tidemark::reference
