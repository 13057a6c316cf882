#include "marks.h"

#include <cstddef>

namespace orchard {

double chance(int i, int j, unsigned salt) {
    unsigned h = static_cast<unsigned>(i) * 374761393u + static_cast<unsigned>(j) * 668265263u + salt * 2246822519u;
    h = (h ^ (h >> 13)) * 1274126177u;
    h = (h ^ (h >> 15)) * 2246822519u;
    return static_cast<double>((h ^ (h >> 16)) & 0xffffu) / 65535.0;
}

double noise(double x, double y, unsigned salt) {
    const double fx = std::floor(x), fy = std::floor(y);
    const int i = static_cast<int>(fx), j = static_cast<int>(fy);
    const double u = ramp(0, 1, x - fx), v = ramp(0, 1, y - fy);
    const double top = (1 - u) * chance(i, j, salt) + u * chance(i + 1, j, salt);
    const double low = (1 - u) * chance(i, j + 1, salt) + u * chance(i + 1, j + 1, salt);
    return 2 * ((1 - v) * top + v * low) - 1;
}

double rough(double x, double y, unsigned salt, int n) {
    double sum = 0, weight = 0.6;
    for (int k = 0; k < n; ++k) {
        sum += weight * noise(x, y, salt + static_cast<unsigned>(k));
        // Turned a little from octave to octave, so that the cells of the grid do not line up.
        const double turned_x = 1.6 * x + 1.2 * y;
        y = 1.6 * y - 1.2 * x;
        x = turned_x;
        weight *= 0.55;
    }
    return sum;
}

OnStroke on_stroke(const Stroke& s, Point p) {
    const Point axis = s.b - s.a, from = p - s.a;
    OnStroke on;
    on.along = clamp01(dot(from, axis) / std::max(dot(axis, axis), 1e-9));
    const double radius = s.ra + on.along * (s.rb - s.ra);
    on.side = (1 / radius) * (from - on.along * axis);
    on.out = length(on.side);
    return on;
}

bool in_polygon(const std::vector<Point>& corner, Point p) {
    bool in = false;
    for (std::size_t i = 0, j = corner.size() - 1; i < corner.size(); j = i++) {
        const Point a = corner[i], b = corner[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            in = !in;
    }
    return in;
}

} // namespace orchard
