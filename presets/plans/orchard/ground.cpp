#include "scene.h"

namespace orchard {
namespace {

/// A place of the ground in metres: to the right of the eye, and away from it.
struct Place {
    double right_m = 0, away_m = 1, scale = 1;
};
Place place_of(Point p) {
    const double scale = std::max((p.y - eye_line_mm) / eye_m, 0.5);
    return {(p.x - centre_mm) / scale, focal_mm / scale, scale};
}

/// The ray from a place to the sun where it meets an upright thing of scale `s`, as a place of the sheet.
std::optional<Point> towards_sun(const Place& at, double s) {
    const double away = focal_mm / s - at.away_m;
    if (away < 0)
        return {};
    const double up_m = away / sun_away_m;
    return Point{centre_mm + (at.right_m - up_m * sun_left_m) * s, eye_line_mm + (eye_m - up_m) * s};
}

using See = Maybe (*)(Point);
/// Share of the sun hidden by a thing, over a penumbra that widens with the height of what casts it.
double hidden_by(const Place& at, double s, See see) {
    const auto meets = towards_sun(at, s);
    if (!meets)
        return 0;
    const double soft = 0.10 + 0.010 * std::max(0.0, eye_line_mm + eye_m * s - meets->y);
    double hits = 0;
    for (const double dx : {-2.0, -1.0, 0.0, 1.0, 2.0})
        hits += see({meets->x + dx * soft, meets->y}) ? 0.2 : 0;
    return hits;
}

/// The shed as a box: the outline of its gable at either end and halfway.
Maybe gable(Point p) {
    const double u = p.x - 325, v = 170.7 - p.y;
    return std::fabs(u) < 40 && v > 0 && v < 54 + 40 - std::fabs(u) ? Maybe{Seen{}} : Maybe{};
}

double near_shadow(Point p) {
    // Cast by the crown of the near tree and by trees beside the picture: one broad shape, dappled, long in the
    // direction of the light.
    const Place at = place_of(p);
    const double along = 0.90 * at.right_m - 0.43 * at.away_m, across = 0.43 * at.right_m + 0.90 * at.away_m;
    const double edge = 5.95 - 0.10 * at.right_m + 0.42 * rough(along / 1.5, across / 0.8, 301, 3);
    const double leaf = 0.55 * rough(along / 0.50, across / 0.26, 305, 3);
    const double inside = (edge - at.away_m) / 0.8 + leaf - 0.1;
    const double fleck =
        ramp(0.36, 0.62, rough(along / 0.7 + 3, across / 0.34, 309, 3)) * ramp(0.2, 1.5, inside + 0.6);
    const double beside = clamp01(ramp(-0.16, 0.20, inside) - 0.85 * fleck);
    const double crown =
        hidden_by(at, 44.0, [](Point q) { return q.y <= 122 && q.y > 60 ? see_near_tree(q) : Maybe{}; });
    return std::max(beside, crown);
}

/// Broad dapples from crowns out of sight on the left, most of them behind the hives.
double far_shadow(Point p) {
    const Place at = place_of(p);
    const double along = 0.90 * at.right_m - 0.43 * at.away_m, across = 0.43 * at.right_m + 0.90 * at.away_m;
    const double leafy = 0.62 * rough(along / 0.75, across / 0.30, 335, 3) * ramp(16, 8, at.away_m);
    const double dapple = rough(at.right_m / 2.4, at.away_m / 3.0, 331, 3) + leafy;
    return 0.9 * ramp(0.16, 0.34, dapple - 0.30 * ramp(6, 0, std::fabs(at.away_m - 22)));
}

double thing_shadow(Point p) {
    const Place at = place_of(p);
    double hidden = 0;
    const auto add = [&](double share) { hidden = std::max(hidden, share); };
    if (p.x > 120 && p.y < 250)
        add(hidden_by(at, 46, see_near_picker));
    if (p.x > 200 && p.y > 160 && p.y < 215)
        add(hidden_by(at, 25, see_far_picker));
    if (p.x > 220 && p.y < 250)
        add(hidden_by(at, 44, see_cart));
    if (p.y < 215)
        for (const double s : {21.0, 22.6, 24.6})
            add(hidden_by(at, s, see_hives));
    if (p.y < 240)
        if (const auto meets = towards_sun(at, 20.5))
            add(tree_hides(*meets, 1.0));
    if (p.y < 240)
        add(hidden_by(at, 44.0, [](Point q) { return q.y > 122 ? see_near_tree(q) : Maybe{}; }));
    if (p.x > 330)
        add(hidden_by(at, 26.7, gable));
    const double wall_shadow = ramp(2.2, 0.4, p.y - wall_foot(p.x));
    add(p.x > 177 && p.x < 195 ? 0.2 * wall_shadow : wall_shadow);
    return hidden;
}

/// Dark where things stand on the ground.
double touch_of(Point p) {
    double t = 0;
    const auto foot = [&](double x, double y, double wide, double high) {
        t = std::max(t, ramp(1, 0.2, length({(p.x - x) / wide, (p.y - y) / high})));
    };
    foot(28, 203, 22, 4);
    foot(141, 201, 14, 2.2);
    foot(288, 199, 20, 2.6);
    foot(226, 168, 9, 1.6);
    foot(325, 171, 46, 2.2);
    foot(243, 161, 8, 1.5);
    for (const double x : {71.0, 88.0, 107.0})
        foot(x, 128 + 1.6 * (21 + (x - 71) * 0.1), 9, 2);
    return t;
}

Colour path_colour(Point p, double hidden) {
    const Place at = place_of(p);
    const double grain = rough(at.right_m * 2.6, at.away_m * 2.6, 311, 2);
    const double rut = noise(at.right_m * 3.0 + 0.3 * noise(0.4, at.away_m, 314), at.away_m * 0.22, 315);
    const double pebble = ramp(0.45, 0.8, noise(at.right_m * 16, at.away_m * 6, 317)) * ramp(20, 45, at.scale);
    static const Scale lit{{{196, 170, 136}, {220, 196, 160}, {236, 216, 182}, {246, 232, 204}, {253, 245, 226}}};
    static const Scale shade{{{70, 67, 76}, {86, 81, 89}, {104, 98, 104}, {124, 116, 119}, {150, 140, 139}}};
    const double tone = 0.55 + 0.30 * grain + 0.22 * rut - 0.15 * pebble;
    return mixed(on_scale(lit, tone + 0.12 * ramp(45, 12, at.scale)),
                 on_scale(shade, tone + 0.15 * ramp(40, 12, at.scale)), hidden);
}

Colour grass_colour(Point p, double hidden) {
    const Place at = place_of(p);
    const double tuft = rough(at.right_m * 2.3, at.away_m * 2.3, 321, 2);
    const double mow = rough(at.right_m * 0.5, at.away_m * 0.8, 325, 2);
    const double blade = noise(p.x / 1.8 + 0.2 * p.y, p.y / 4, 327);
    static const Scale lit{{{140, 142, 78}, {176, 173, 96}, {206, 199, 120}, {228, 218, 148}, {246, 236, 184}}};
    static const Scale shade{{{38, 50, 50}, {52, 65, 57}, {68, 82, 66}, {88, 101, 78}, {118, 127, 96}}};
    const double tone = 0.50 + 0.30 * tuft + 0.26 * mow + 0.08 * blade;
    const Colour c = mixed(on_scale(lit, tone + 0.1), on_scale(shade, tone), hidden);
    return mixed(c, {214, 206, 166}, 0.34 * ramp(24, 8, at.scale) * (1 - 0.6 * hidden));
}

} // namespace

bool on_path(Point p, double widened_m) {
    const Place at = place_of(p);
    const double middle = 0.30 - 1.48 * ramp(9, 34, at.away_m) - 0.62 * ramp(9, 3.5, at.away_m);
    const double ragged =
        0.10 * rough(at.right_m * 2.2, at.away_m * 1.1, 341, 3) + 0.05 * noise(p.x / 1.1, p.y / 2.4, 345);
    return std::fabs(at.right_m - middle) < 0.60 + ragged + widened_m;
}

Seen see_ground(Point p) {
    const double far = far_shadow(p), near = near_shadow(p), things = thing_shadow(p);
    const double hidden = std::max({near, far, things, 0.7 * touch_of(p)});
    const bool path = on_path(p);
    Colour c = path ? path_colour(p, hidden) : grass_colour(p, hidden);
    c = scaled(c, 1 - 0.40 * touch_of(p));
    c = scaled(c, 1 - 0.20 * near * ramp(220, 280, p.y));
    return {path ? Part::path : Part::grass, c, hidden > 0.5, near > 0.5 || (far > 0.5 && p.y > 195)};
}

} // namespace orchard
