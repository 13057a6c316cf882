#include "scene.h"

/// The potting shed: its gable towards the eye and in shade, left wall and left slope of the roof in the sun.
namespace orchard {
namespace {

// Corners in mm: gable in front (scale 26.7), the far end at scale 20.5, seen under the same eye line.
const std::vector<Point> roof{{282.0, 117.4}, {325.8, 72.6}, {295.6, 85.4}, {262.6, 119.4}};
const std::vector<Point> verge{{280.8, 118.6}, {325.8, 71.6}, {370.2, 118.4},
                               {366.6, 119.0}, {325.6, 77.0}, {284.4, 119.2}};
const std::vector<Point> gable{{285, 116.0}, {325.5, 75.6}, {365, 116.0}, {365, 170.7}, {285, 170.7}};
const std::vector<Point> side{{265.6, 117.0}, {285, 114.6}, {285, 170.7}, {265.6, 160.8}};
const std::vector<Point> door{{323, 121.6}, {345, 121.4}, {345.4, 170.7}, {322.8, 170.7}};
const std::vector<Point> window{{295, 128}, {309, 128}, {309, 142}, {295, 142}};

Colour boards(Point p, const Scale& scale, double tone, double board_mm, unsigned salt) {
    const double place = p.x / board_mm;
    const int board = static_cast<int>(std::floor(place));
    const double gap = std::min(place - board, 1 - place + board) * board_mm;
    tone += 0.13 * (chance(board, 0, salt) - 0.5) + 0.10 * rough(p.x / 1.3, p.y / 15, salt + 1, 3);
    tone += 0.14 * rough(p.x / 18, p.y / 14, salt + 2, 2) - 0.22 * ramp(0.35, 0.1, gap);
    return on_scale(scale, tone);
}

Colour roof_colour(Point p) {
    // Courses run up the slope towards the ridge; moss and lichen in patches.
    const double up = ((p.x - 282) * 0.70 - (p.y - 117.4) * 0.715) / 3.0, along = (p.x - p.y * 0.2) / 4.4;
    const int row = static_cast<int>(std::floor(up + 0.12 * noise(p.x / 5, p.y / 5, 232)));
    const double edge = up - std::floor(up);
    double tone = 0.78 + 0.14 * (chance(row, static_cast<int>(std::floor(along + 0.5 * (row & 1))), 233) - 0.5);
    tone += 0.16 * rough(p.x / 9, p.y / 7, 234, 3) - 0.16 * ramp(0.16, 0.04, edge) + 0.12 * ramp(320, 270, p.x);
    static const Scale scale{{{132, 110, 98}, {176, 148, 128}, {220, 192, 164}, {246, 228, 200}, {254, 246, 228}}};
    return mixed(on_scale(scale, tone), {196, 190, 136}, 0.30 * ramp(0.1, 0.6, rough(p.x / 6, p.y / 6, 236, 3)));
}

Seen gable_at(Point p) {
    static const Scale shade{{{62, 58, 66}, {84, 78, 82}, {106, 98, 98}, {128, 116, 110}, {156, 142, 130}}};
    if (in_polygon(door, p)) {
        const double lit = 0.35 + 0.3 * rough(p.x / 4, p.y / 9, 241, 3) + 0.35 * ramp(150, 171, p.y);
        return {Part::shed_dark, mixed({26, 25, 30}, {56, 50, 48}, clamp01(lit))};
    }
    if (in_polygon(window, p)) {
        const double bar = std::min(std::fabs(p.x - 302), std::fabs(p.y - 135));
        const double pane = 0.5 + 0.6 * rough(p.x / 6, p.y / 4, 243, 2) + 0.03 * (135 - p.y);
        return bar < 0.5 ? Seen{Part::shed_side, {126, 118, 112}}
                         : Seen{Part::shed_dark, mixed({44, 50, 60}, {92, 104, 114}, clamp01(pane))};
    }
    const double under = p.y - (p.x < 325.5 ? 116 - (p.x - 285) : 75.5 + (p.x - 325.5));
    if (under < 4.2 + 0.6 * noise(p.x / 4, 0.1, 244) && p.y < 124)
        return {Part::shed_dark, {54, 50, 56}};
    const double back = 0.50 + 0.20 * ramp(140, 171, p.y); // light thrown back from the grass
    return {Part::shed_side, boards(p, shade, back, 4.3, 245)};
}

} // namespace

Maybe see_shed(Point p) {
    if (p.x < 260 || p.x > 372 || p.y < 68 || p.y > 173)
        return {};
    const Point q{p.x + 0.25 * noise(p.x / 4, p.y / 6, 251), p.y + 0.3 * noise(p.x / 7, p.y / 4, 252)};
    if (in_polygon(roof, q))
        return Seen{Part::shed_roof, roof_colour(q)};
    if (in_polygon(verge, q))
        return q.x < 326 ? Seen{Part::shed_roof, {232, 206, 172}} : Seen{Part::shed_dark, {60, 54, 56}};
    if (in_polygon(gable, q))
        return gable_at(q);
    if (!in_polygon(side, q))
        return {};
    const double eave = q.y - (117.0 - (q.x - 265.6) * 0.124);
    if (eave < 4.6)
        return Seen{Part::shed_dark, {74, 64, 60}};
    static const Scale lit{{{122, 92, 72}, {164, 128, 96}, {200, 164, 124}, {226, 194, 152}, {246, 222, 184}}};
    return Seen{Part::shed_lit, boards(q, lit, 0.58 - 0.2 * ramp(160, 172, q.y), 2.4, 253)};
}

} // namespace orchard
