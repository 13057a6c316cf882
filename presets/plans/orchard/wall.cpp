#include "scene.h"

namespace orchard {
namespace {

constexpr double wall_m = 2.6, gate_left = 177, gate_right = 195;

double wall_scale(double x) { return 9.2 + 4.0 * x / width_mm; } // straight in space, nearer on the right

/// Courses of stones of unequal length; how far inside its stone a place is, and the stone's own tone.
struct Stone {
    double joint = 1, tone = 0;
};
Stone stone_at(double along_m, double up_m) {
    along_m += 0.05 * noise(along_m / 0.5, up_m / 0.4, 71);
    up_m += 0.045 * noise(along_m / 0.7, up_m / 0.5, 72);
    const double course = up_m / 0.29;
    const int row = static_cast<int>(std::floor(course));
    const double place = along_m / 0.62 + 0.5 * (row & 1) + 0.35 * chance(row, 0, 73);
    const int column = static_cast<int>(std::floor(place));
    const double across = place - column - 0.18 * chance(column, row, 74);
    const double v = course - row;
    return {std::min({v, 1 - v, 1.8 * std::fabs(across), 1.8 * (1 - across)}), chance(column, row, 75)};
}

Colour stones(Point p) {
    const double s = wall_scale(p.x), along_m = focal_mm / s * (p.x - centre_mm) / focal_mm * 1.9;
    const double up_m = (wall_foot(p.x) - p.y) / s;
    const Stone stone = stone_at(along_m, up_m);
    const double stain = rough(p.x / 22, p.y / 9, 77, 3);
    double tone = 0.40 + 0.34 * (stone.tone - 0.5) + 0.22 * stain;
    tone -= 0.20 * ramp(0.13, 0.02, stone.joint);
    tone += 0.14 * ramp(1.2, 0.2, up_m); // light thrown back from the grass
    static const Scale scale{{{84, 80, 92}, {106, 100, 108}, {128, 119, 120}, {150, 138, 130}, {176, 160, 142}}};
    Colour c = on_scale(scale, tone);
    return mixed(c, {186, 180, 172}, 0.22 * ramp(300, 60, p.x)); // haze towards the light
}

Maybe see_gate(Point p) {
    const double foot = wall_foot(186);
    const double u = (p.x - gate_left) / (gate_right - gate_left);
    const double top = foot - 13.6 - 0.8 * u; // its top bar, half of the opening
    if (p.y < top || p.y > foot - 0.6)
        return {};
    const double down = p.y - top;
    for (const double bar : {0.0, 4.2, 8.4, 11.6})
        if (std::fabs(down - bar - 0.7) < (bar == 0 ? 0.7 : 0.45))
            return Seen{Part::gate, bar == 0 ? Colour{232, 212, 176} : Colour{120, 108, 98}, false, false, false,
                        bar == 0};
    for (const double stile : {0.04, 0.96})
        if (std::fabs(u - stile) < 0.05)
            return Seen{Part::gate, {138, 122, 106}};
    if (std::fabs(u - down / 12.6) < 0.035)
        return Seen{Part::gate, {104, 94, 88}};
    return {};
}

} // namespace

double wall_foot(double x) { return eye_line_mm + eye_m * wall_scale(x) + 0.35 * noise(x / 3, 0.5, 79); }
double wall_top(double x) {
    const double sag = 0.25 * noise(x / 8, 0.2, 80) + 0.35 * noise(x / 31, 0.2, 81);
    const double pier = std::fabs(x - gate_left + 3) < 3.2 || std::fabs(x - gate_right - 3) < 3.2 ? 4.5 : 0;
    return eye_line_mm - (wall_m - eye_m) * wall_scale(x) + sag - pier;
}

Maybe see_wall(Point p) {
    const double x = p.x + 0.22 * rough(p.x / 2.5, p.y / 2.5, 82, 2);
    const double top = wall_top(x), foot = wall_foot(x);
    if (p.y < top || p.y > foot)
        return {};
    if (x > gate_left && x < gate_right) {
        if (const Maybe gate = see_gate(p))
            return gate;
        // A hedge in its own shadow beyond the opening.
        const double leaf = rough(p.x / 2.2, p.y / 2, 83, 3);
        const double lit = 0.35 + 0.4 * leaf + 0.25 * ramp(foot - 10, top, p.y);
        return Seen{Part::gate_gap, mixed({34, 38, 40}, {70, 74, 62}, clamp01(lit))};
    }
    Colour c = stones(p);
    const double coping = p.y - top;
    if (coping < 1.5) // the top catches the sun
        c = mixed({216, 196, 162}, {190, 172, 148}, clamp01(0.5 + rough(p.x / 3, 0, 84, 2)));
    else if (coping < 2.4)
        c = scaled(c, 0.78);
    const bool jamb = x >= gate_right && x < gate_right + 1.2; // the side of the opening that faces the sun
    return Seen{Part::wall, jamb ? mixed(c, {226, 204, 168}, 0.7) : c};
}

} // namespace orchard
