/// Noise, ramps, colours and plain shapes the orchard is drawn with. Lengths in mm of the sheet unless a name says
/// otherwise; y runs downwards. Only + - * / sqrt and floor: the same picture on every machine.
#pragma once
#include <algorithm>
#include <cmath>
#include <vector>

namespace orchard {

inline double clamp01(double v) { return std::clamp(v, 0.0, 1.0); }
inline double ramp(double from, double to, double v) {
    const double t = clamp01((v - from) / (to - from));
    return t * t * (3 - 2 * t);
}

struct Point {
    double x = 0, y = 0;
};
inline Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
inline Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
inline Point operator*(double s, Point a) { return {s * a.x, s * a.y}; }
inline double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
inline double length(Point a) { return std::sqrt(dot(a, a)); }
inline Point unit(Point a) { return (1 / length(a)) * a; }

/// sRGB, 0 ... 255.
struct Colour {
    double r = 0, g = 0, b = 0;
};
inline Colour mixed(Colour a, Colour b, double t) {
    return {a.r + t * (b.r - a.r), a.g + t * (b.g - a.g), a.b + t * (b.b - a.b)};
}
inline Colour scaled(Colour a, double by) { return {a.r * by, a.g * by, a.b * by}; }

/// Five colours from dark to light; tone 0 ... 1, taken in steps: flat touches, as a brush would lay them.
struct Scale {
    Colour at[5];
};
inline Colour on_scale(const Scale& scale, double tone) {
    const double place = 4 * std::floor(15 * clamp01(tone) + 0.5) / 15;
    const int i = std::min(static_cast<int>(place), 3);
    return mixed(scale.at[i], scale.at[i + 1], place - i);
}

double chance(int i, int j, unsigned salt);             ///< 0 ... 1, a fixed throw for each cell
double noise(double x, double y, unsigned salt);        ///< smooth, -1 ... 1, one bump a unit
double rough(double x, double y, unsigned salt, int n); ///< n octaves of it, about -1 ... 1

/// A stroke that tapers from radius `ra` at `a` to `rb` at `b`.
struct Stroke {
    Point a, b;
    double ra = 1, rb = 1;
};
/// Where a place lies on a stroke: `out` < 1 inside it; `side` -1 ... 1 across, x and y of the outward direction.
struct OnStroke {
    double out = 1e9, along = 0;
    Point side;
};
OnStroke on_stroke(const Stroke&, Point);
bool in_polygon(const std::vector<Point>&, Point);

} // namespace orchard
