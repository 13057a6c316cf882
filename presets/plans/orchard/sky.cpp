#include "scene.h"

namespace orchard {
namespace {

/// 1 at the place of the sun behind the left edge, falling away from it.
double glow(Point p) {
    const double d = length({(p.x - 92) / 210, (p.y - 112) / 92});
    return 1 / (1 + 2.6 * d * d);
}

Colour sky(Point p) {
    const Colour above{150, 180, 208}, low{226, 226, 222}, warm{255, 233, 194};
    const double down = ramp(-30, 118, p.y);
    Colour c = mixed(mixed(above, low, down), warm, 0.95 * ramp(0.12, 0.95, glow(p)));
    // Thin cloud in long bars, lit from below on the left.
    const double bar = rough(p.x / 95 + 0.012 * p.y, p.y / 17, 11, 4) + 0.25 * rough(p.x / 26, p.y / 9, 17, 3);
    const double cloud = ramp(0.0, 0.75, bar) * ramp(112, 60, p.y);
    return mixed(c, mixed({236, 234, 232}, {255, 240, 214}, glow(p)), 0.62 * cloud);
}

/// Height of a row of far trees over the wall: crowns of several sizes, ragged.
double crowns(double x, double y, unsigned salt, double size) {
    double top = 0;
    const int cell = static_cast<int>(std::floor(x / size));
    for (int i = cell - 2; i <= cell + 2; ++i) {
        const double middle = (i + 0.15 + 0.7 * chance(i, 1, salt)) * size;
        const double radius = size * (0.55 + 0.55 * chance(i, 2, salt));
        const double tall = size * (0.5 + 0.75 * chance(i, 3, salt));
        const double off = (x - middle) / radius;
        if (off * off < 1)
            top = std::max(top, tall * std::sqrt(1 - off * off));
    }
    return top + 0.14 * size * rough(x / (0.28 * size), y / (0.28 * size), salt + 5, 3);
}

} // namespace

Seen see_distance(Point p) {
    const double warm = ramp(0.25, 1.0, glow(p));
    const double near_top = 112 - 0.9 * crowns(p.x, p.y, 31, 17) + 5 * noise(p.x / 60, 0.3, 33);
    const double far_top = 103 - 0.8 * crowns(p.x + 9, p.y, 41, 24) + 4 * noise(p.x / 90, 0.8, 43);
    if (p.y < near_top && p.y < far_top)
        return {Part::sky, sky(p)};
    const bool near = p.y >= near_top;
    const double top = near ? near_top : far_top;
    const double mottled = rough(p.x / 6, p.y / 5, near ? 51 : 57, 3);
    const double lit = clamp01(0.42 + 0.5 * mottled - 0.030 * (p.y - top)); // mist rises towards the foot
    Colour c = near ? mixed({126, 147, 152}, {164, 179, 172}, lit) : mixed({160, 178, 192}, {184, 197, 202}, lit);
    c = mixed(c, {204, 210, 206}, 0.45 * ramp(100, 122, p.y));
    return {Part::far_trees, mixed(c, {246, 222, 186}, 0.55 * warm)};
}

} // namespace orchard
