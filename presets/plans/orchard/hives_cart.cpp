#include "scene.h"

#include <array>

/// Three hives on the grass at the left, and a hand cart of apples on the right of the path.
namespace orchard {
namespace {

struct Hive {
    double x = 0, scale = 1; ///< left edge of its front, scale there
};
constexpr std::array hive_list{Hive{99, 24.6}, Hive{80, 22.6}, Hive{63, 21.0}};

Maybe see_hive(const Hive& h, Point p, unsigned salt) {
    const double s = h.scale, ground = eye_line_mm + eye_m * s;
    double u = (p.x - h.x) / s + 0.006 * noise(p.x / 2, p.y / 2, salt), v = (ground - p.y) / s;
    if (u < -0.42 || u > 0.62 || v < 0 || v > 1.3)
        return {};
    // Lid: its near slope, seen from above, catches the whole sky; the left end hangs over.
    if (v > 1.0 && v < 1.19 && u > -0.19 + 0.5 * (v - 1.0) && u < 0.56 - 0.25 * (v - 1.0))
        return Seen{Part::hive_top,
                    mixed({255, 248, 228}, {240, 230, 208}, clamp01(0.5 + rough(p.x / 2, p.y / 1.5, salt, 2))),
                    false,
                    false,
                    false,
                    true};
    if (v > 0.95 && v <= 1.0 && u > -0.19 && u < 0.56)
        return Seen{u < 0 ? Part::hive_lit : Part::hive_shade, u < 0 ? Colour{246, 226, 190} : Colour{96, 96, 106}};
    if (v < 0.16) { // legs, and the dark under the floor
        const bool leg = std::fabs(u + 0.12) < 0.035 || std::fabs(u - 0.04) < 0.04 || std::fabs(u - 0.45) < 0.04;
        return leg ? Maybe{Seen{Part::hive_shade, {84, 78, 78}}} : Maybe{};
    }
    if (v > 0.95)
        return {};
    const double lift = v / 0.27, seam = std::fabs(lift - std::floor(lift + 0.5)) * 0.27;
    const double stain = 0.10 * rough(p.x / 2.6, p.y / 4, salt + 2, 3) - (seam < 0.018 ? 0.22 : 0);
    if (u > -0.15 && u < 0.0) {
        static const Scale lit{{{176, 150, 120}, {212, 188, 154}, {240, 220, 186}, {253, 240, 214}, {255, 248, 232}}};
        return Seen{Part::hive_lit, on_scale(lit, 0.68 + stain)};
    }
    if (u >= 0.0 && u < 0.5) {
        static const Scale shade{{{78, 82, 94}, {100, 104, 116}, {122, 125, 136}, {146, 146, 152}, {172, 168, 164}}};
        if (std::fabs(v - 0.22) < 0.022 && u > 0.10 && u < 0.40)
            return Seen{Part::hive_shade, {52, 50, 56}}; // the bees' door
        return Seen{Part::hive_shade, on_scale(shade, 0.46 + stain + 0.2 * ramp(0.6, 0.15, v))};
    }
    return {};
}

// The cart, in metres: u to the right of the axle, v up. Wheels of radius 0.42, the bed above them.
constexpr double cart_x = 278, cart_scale = 44;

Seen heap(Point p, double u, double v) {
    const double cell = 0.085, row = v / cell;
    const int j = static_cast<int>(std::floor(row)), i = static_cast<int>(std::floor(u / cell + 0.5 * (j & 1)));
    const Point off{(u / cell + 0.5 * (j & 1) - i - 0.5) * 2, (row - j - 0.5) * 2};
    const double fruit =
        clamp01(0.52 - 0.30 * off.x + 0.25 * off.y - 0.25 * dot(off, off) + 0.25 * (chance(i, j, 271) - 0.5));
    static const Scale apples{{{96, 34, 32}, {158, 54, 38}, {208, 88, 48}, {238, 138, 72}, {255, 206, 140}}};
    const Colour c = on_scale(apples, fruit + 0.12 * ramp(0.2, -0.5, u));
    return {Part::cart_accent, chance(i, j, 272) < 0.14 ? mixed(c, {206, 176, 78}, 0.6)
                                                        : mixed(c, {150, 90, 60}, 0.05 * noise(p.x, p.y, 273))};
}

Maybe see_wheel(double u, double v, double middle, double radius) {
    const Point off{u - middle, v - 0.42};
    const double r = length(off) / radius;
    if (r > 1)
        return {};
    const bool rim = r > 0.84, hub = r < 0.2;
    const double spoke = std::min(
        {std::fabs(off.x), std::fabs(off.y), 0.707 * std::fabs(off.x - off.y), 0.707 * std::fabs(off.x + off.y)});
    if (!rim && !hub && spoke > 0.021)
        return {};
    const double lit = ramp(0.2, 0.95, -off.x / radius * (r > 0.92 ? 1 : 0)) + (hub ? 0.25 : 0);
    return Seen{Part::cart_dark, mixed({40, 34, 36}, {176, 142, 104}, clamp01(lit))};
}

} // namespace

Maybe see_hives(Point p) {
    unsigned salt = 261;
    for (const Hive& h : hive_list)
        if (const Maybe seen = see_hive(h, p, salt += 5))
            return seen;
    return {};
}

Maybe see_cart(Point p) {
    const double ground = eye_line_mm + eye_m * cart_scale;
    const double u = (p.x - cart_x) / cart_scale + 0.006 * noise(p.x / 3, p.y / 3, 281),
                 v = (ground - p.y) / cart_scale;
    if (u < -1.5 || u > 0.85 || v < -0.02 || v > 1.2)
        return {};
    if (const Maybe wheel = see_wheel(u, v, 0.08, 0.42))
        return wheel;
    const double left = -0.62 - 0.10 * (v - 0.5), right = 0.60 + 0.14 * (v - 0.5); // the bed widens upwards
    if (v > 0.50 && v < 0.84 && u > left && u < right) {
        const double board = (v - 0.50) / 0.113, gap = board - std::floor(board);
        const double tone = 0.42 + 0.2 * rough(p.x / 8, p.y / 1.2, 283, 3) - (gap < 0.13 ? 0.3 : 0) +
                            0.5 * ramp(left + 0.08, left, u);
        static const Scale wood{{{50, 42, 42}, {78, 66, 60}, {108, 90, 76}, {160, 132, 100}, {226, 194, 144}}};
        return Seen{Part::cart_body,
                    v > 0.81 ? mixed(on_scale(wood, tone), {226, 190, 138}, 0.55) : on_scale(wood, tone)};
    }
    const double top = 0.84 + 0.24 * (1 - u * u / 0.30) + 0.035 * noise(p.x / 2.4, 0.4, 285);
    if (v >= 0.84 && v < top)
        return heap(p, u, v);
    const OnStroke shaft = on_stroke({{-0.55, 0.55}, {-1.42, 0.30}, 0.034, 0.024}, {u, v});
    if (shaft.out < 1)
        return Seen{Part::cart_body, shaft.side.y > 0.2 ? Colour{206, 174, 128} : Colour{74, 62, 56}};
    if (v < 0.50 && v > 0.40 && u > -0.5 && u < 0.5)
        return Seen{Part::cart_dark, {42, 36, 38}};
    if (v < 0.5 && (on_stroke({{-0.52, 0.5}, {-0.55, 0.0}, 0.028, 0.022}, {u, v}).out < 1))
        return Seen{Part::cart_dark, {56, 46, 44}};
    if (const Maybe wheel = see_wheel(u, v, 0.22, 0.40))
        return wheel;
    return {};
}

} // namespace orchard
