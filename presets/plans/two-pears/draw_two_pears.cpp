/// Draws the reference and the masks of the demo plan beside it: two pears on a cloth, window light from the upper
/// left. An invented scene of spheres melted into each other, looked at along rays, then laid in as flat touches of a
/// few tones, as one would in a small study in body colour.
///
///   draw_two_pears FOLDER      writes reference.png and masks/*.png
///
/// Scene in mm: x to the right, y up, z towards the painter; the table is the plane y = 0, the wall z = -52.
#include "grid/calm_threads.h"
#include "grid/files.h"
#include "grid/picture.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

TIDEMARK_CALM_THREADS

namespace {

using tidemark::grid::GreyPicture;
using tidemark::grid::Picture;

struct Vec {
    double x = 0, y = 0, z = 0;
};
Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
Vec operator*(double s, Vec a) { return {s * a.x, s * a.y, s * a.z}; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Vec unit(Vec a) { return (1 / std::sqrt(dot(a, a))) * a; }
Vec cross(Vec a, Vec b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }

double clamp01(double v) { return std::clamp(v, 0.0, 1.0); }
double ramp(double from, double to, double v) {
    const double t = clamp01((v - from) / (to - from));
    return t * t * (3 - 2 * t);
}

// ---- the scene, as distances -------------------------------------------------------------------------------------

enum Thing { wall, cloth, table, left_pear, right_pear, stems, things };

double sphere(Vec p, Vec centre, double radius) { return std::sqrt(dot(p - centre, p - centre)) - radius; }

/// Two surfaces run into each other over a width of about k.
double melted(double a, double b, double k) {
    const double h = std::max(k - std::fabs(a - b), 0.0) / k;
    return std::min(a, b) - h * h * k / 4;
}

double twig(Vec p, Vec from, Vec to, double radius) {
    const Vec along = to - from;
    const double t = clamp01(dot(p - from, along) / dot(along, along));
    return std::sqrt(dot(p - from - t * along, p - from - t * along)) - radius * (0.8 + 0.5 * t);
}

double distance_to(Vec p, Thing thing) {
    switch (thing) {
    case wall:
        return p.z + 52;
    case left_pear:
        return melted(melted(sphere(p, {-19, 19.0, -6}, 19.5), sphere(p, {-18.2, 37, -6}, 10.5), 16),
                      sphere(p, {-17, 47, -6}, 7.2), 10);
    case right_pear:
        return melted(melted(sphere(p, {25, 18.6, 14}, 19), sphere(p, {40, 29, 19}, 10.5), 16),
                      sphere(p, {47.5, 34.5, 21}, 7.0), 10);
    case stems:
        return std::min(
            std::min(twig(p, {-16.8, 52, -6}, {-15.2, 59, -6}, 1.0),
                     twig(p, {-15.2, 59, -6}, {-10.5, 64.5, -5}, 1.1)),
            std::min(twig(p, {51.5, 38, 22}, {57, 43, 22}, 1.0), twig(p, {57, 43, 22}, {63.5, 44.5, 21}, 1.1)));
    default:
        return p.y; // cloth and table lie in one plane
    }
}

/// mm beyond the edge of the cloth, which lies in a slack diagonal over the corner of the table.
double past_hem(Vec p) { return 0.78 * p.x + 0.62 * p.z - 67 - 1.1 * std::sin(0.055 * (p.z - 1.2 * p.x) + 0.6); }

struct Nearest {
    double distance = 1e9;
    Thing thing = wall;
};

Nearest nearest(Vec p) {
    Nearest n;
    for (const Thing t : {wall, cloth, left_pear, right_pear, stems})
        if (const double d = distance_to(p, t); d < n.distance)
            n = {d, t};
    if (n.thing == cloth && past_hem(p) > 0)
        n.thing = table;
    return n;
}

Vec normal_at(Vec p, Thing thing) {
    const double e = 0.05;
    return unit({distance_to(p + Vec{e, 0, 0}, thing) - distance_to(p - Vec{e, 0, 0}, thing),
                 distance_to(p + Vec{0, e, 0}, thing) - distance_to(p - Vec{0, e, 0}, thing),
                 distance_to(p + Vec{0, 0, e}, thing) - distance_to(p - Vec{0, 0, e}, thing)});
}

const Vec to_window = unit({-0.66, 0.60, 0.42});

/// Share of the window seen from p, 0 ... 1: how close a ray to its middle passes by the pears, for its distance.
double window_seen(Vec p) {
    double seen = 1;
    for (double s = 1.2; s < 160;) {
        const Vec q = p + s * to_window;
        const double d = std::min({distance_to(q, left_pear), distance_to(q, right_pear), distance_to(q, stems)});
        seen = std::min(seen, 0.5 + 0.5 * d / (0.075 * s)); // half the window's width over its distance
        if (seen <= 0)
            return 0;
        s += std::clamp(d, 0.25, 6.0);
    }
    return ramp(0, 1, seen);
}

/// Light from all round that still gets into a corner.
double openness(Vec p, Vec n) {
    double shut = 0, weight = 0.5;
    for (const double s : {2.0, 4.0, 8.0, 14.0}) {
        shut += weight * std::max(s - nearest(p + s * n).distance, 0.0) / s;
        weight *= 0.62;
    }
    return clamp01(1 - shut);
}

// ---- tones -------------------------------------------------------------------------------------------------------

/// Smooth noise, -1 ... 1: the wobble of a hand and of the paint.
double wobble(double x, double y, unsigned salt) {
    const auto at = [salt](int i, int j) {
        unsigned h =
            static_cast<unsigned>(i) * 374761393u + static_cast<unsigned>(j) * 668265263u + salt * 2246822519u;
        h = (h ^ (h >> 13)) * 1274126177u;
        return static_cast<double>((h ^ (h >> 16)) & 0xffffu) / 32767.5 - 1;
    };
    const int i = static_cast<int>(std::floor(x)), j = static_cast<int>(std::floor(y));
    const double u = ramp(0, 1, x - i), v = ramp(0, 1, y - j);
    return (1 - v) * ((1 - u) * at(i, j) + u * at(i + 1, j)) + v * ((1 - u) * at(i, j + 1) + u * at(i + 1, j + 1));
}

struct Seen {
    Thing thing = wall;
    double tone = 0;        ///< 0 dark ... 1 light, on the thing's own scale of colours
    double blush = 0;       ///< of a pear
    bool in_shadow = false; ///< a cast shadow on cloth or table
};

double pear_tone(Vec p, Vec n, double window) {
    const double lit = window * ramp(-0.12, 1.0, dot(n, to_window));
    const double sky = 0.5 + 0.5 * n.y, from_cloth = ramp(0.1, 1.0, -n.y) * ramp(30, 4, p.y);
    return (0.10 + 0.10 * sky + 0.16 * from_cloth) * (0.45 + 0.55 * openness(p, n)) + 0.80 * lit;
}

struct Hit {
    Vec p;
    Thing thing = wall;
};

/// What a ray meets through a place of the picture, 0 ... 150 mm to the right and 0 ... 110 down.
Hit hit_at(double x_mm, double y_mm) {
    const Vec eye{6, 118, 420}, aim{6, 27, 0};
    const Vec forward = unit(aim - eye), right = unit(cross(forward, {0, 1, 0})), up = cross(right, forward);
    const double far = std::sqrt(dot(aim - eye, aim - eye));
    const Vec ray = unit(far * forward + (x_mm - 75) * right + (55 - y_mm) * up);
    Vec p = eye + (far - 150) * ray;
    Nearest n;
    for (int step = 0; step < 120; ++step) {
        n = nearest(p);
        if (n.distance < 0.01)
            break;
        p = p + n.distance * ray;
    }
    return {p, n.thing};
}

Seen look(double x_mm, double y_mm) {
    const auto [p, thing] = hit_at(x_mm, y_mm);
    Seen seen{thing, 0, 0, false};
    if (thing == wall) { // the window lights the near end of it; it falls away to the right and downwards
        const double glow = ramp(48, -92, p.x + 0.25 * p.y);
        seen.tone = 0.16 + 0.66 * glow + 0.05 * ramp(30, 95, p.y) - 0.08 * ramp(16, 0, p.y);
        return seen;
    }
    const Vec normal = normal_at(p, thing);
    const double window = window_seen(p);
    if (thing == cloth || thing == table) {
        const double fold =
            0.05 * std::sin(0.10 * p.x - 0.045 * p.z + 1.2) + 0.03 * std::sin(0.05 * p.x + 0.21 * p.z);
        const double away = 0.06 * ramp(-80, 90, p.x) + 0.16 * ramp(-14, -52, p.z);
        seen.tone = (thing == cloth ? 0.93 + fold : 0.75 + 2 * fold) - away - 0.60 * (1 - window) -
                    0.45 * (1 - openness(p, normal));
        seen.in_shadow = window < 0.5 || (openness(p, normal) < 0.5 && p.z > -40); // not the foot of the wall
    } else if (thing == stems) {
        seen.tone = 0.15 + 0.6 * window * clamp01(dot(normal, to_window));
    } else {
        seen.tone = pear_tone(p, normal, window);
        seen.blush = thing == left_pear ? ramp(0.1, 0.75, 0.75 * normal.x + 0.35 * normal.z - 0.1) *
                                              ramp(8, 22, p.y) * ramp(58, 40, p.y)
                                        : ramp(0.25, 0.95, 0.75 * normal.y + 0.55 * normal.x) * ramp(10, 38, p.x);
    }
    return seen;
}

struct Colour {
    double r = 0, g = 0, b = 0;
};
Colour mixed(Colour a, Colour b, double t) {
    return {a.r + t * (b.r - a.r), a.g + t * (b.g - a.g), a.b + t * (b.b - a.b)};
}

/// A scale of five colours from dark to light.
Colour on_scale(const Colour (&scale)[5], double tone) {
    const double place = 4 * clamp01(tone);
    const int i = std::min(static_cast<int>(place), 3);
    return mixed(scale[i], scale[i + 1], place - i);
}

Colour colour_of(const Seen& seen) {
    static const Colour walls[5] = {{66, 68, 76}, {82, 88, 98}, {104, 113, 122}, {132, 141, 146}, {160, 166, 166}};
    static const Colour cloths[5] = {
        {92, 94, 118}, {134, 137, 160}, {184, 186, 200}, {230, 228, 226}, {252, 249, 240}};
    static const Colour tables[5] = {{48, 34, 30}, {70, 48, 38}, {98, 66, 46}, {130, 90, 60}, {160, 116, 78}};
    static const Colour pears[5] = {{70, 70, 66}, {104, 96, 58}, {158, 140, 56}, {208, 192, 92}, {246, 236, 176}};
    static const Colour blushed[5] = {{76, 66, 66}, {116, 76, 58}, {176, 98, 58}, {220, 150, 88}, {248, 226, 180}};
    static const Colour twigs[5] = {{38, 30, 28}, {60, 44, 34}, {92, 70, 46}, {132, 106, 70}, {180, 152, 110}};
    switch (seen.thing) {
    case wall:
        return on_scale(walls, seen.tone);
    case cloth:
        return on_scale(cloths, seen.tone);
    case table:
        return on_scale(tables, seen.tone);
    case stems:
        return on_scale(twigs, seen.tone);
    default:
        return mixed(on_scale(pears, seen.tone), on_scale(blushed, seen.tone), seen.blush);
    }
}

/// Laid in touches: the place wobbles a little, tone and blush go in steps.
Colour touch(double x, double y) {
    Seen seen = look(x, y);
    const double hand = seen.thing == wall ? 0.035 : seen.thing == cloth ? 0.018 : 0.030;
    const double grain = 0.6 * wobble(x / 7, y / 4.5, 1) + 0.4 * wobble(x / 3.4, y / 2.6, 2);
    const double steps = seen.thing == wall ? 18 : 22;
    seen.tone = std::round((seen.tone + hand * grain) * steps) / steps;
    seen.blush = std::round((seen.blush + 0.06 * grain) * 5) / 5;
    return colour_of(seen);
}

/// A pixel: one touch, unless the outline of a thing runs through it; then the mean of nine.
Colour pixel(double x, double y, double side) {
    const Thing thing = hit_at(x, y).thing;
    bool outline = false;
    for (const double dx : {-0.5, 0.5})
        for (const double dy : {-0.5, 0.5})
            outline |= hit_at(x + dx * side, y + dy * side).thing != thing;
    if (!outline)
        return touch(x, y);
    Colour sum;
    for (const double dx : {-1, 0, 1})
        for (const double dy : {-1, 0, 1}) {
            const Colour c = touch(x + dx * side / 3, y + dy * side / 3);
            sum = {sum.r + c.r / 9, sum.g + c.g / 9, sum.b + c.b / 9};
        }
    return sum;
}

// ---- the files ---------------------------------------------------------------------------------------------------

constexpr int width_mm = 150, height_mm = 110;

Picture draw_reference(int pixels_per_mm) {
    Picture p{width_mm * pixels_per_mm, height_mm * pixels_per_mm, {}};
    p.rgb.resize(std::size_t{3} * p.width * p.height);
#pragma omp parallel for schedule(dynamic)
    for (int y = 0; y < p.height; ++y)
        for (int x = 0; x < p.width; ++x) {
            const Colour c = pixel((x + 0.5) / pixels_per_mm, (y + 0.5) / pixels_per_mm, 1.0 / pixels_per_mm);
            std::uint8_t* to = p.at(x, y);
            to[0] = static_cast<std::uint8_t>(std::lround(c.r));
            to[1] = static_cast<std::uint8_t>(std::lround(c.g));
            to[2] = static_cast<std::uint8_t>(std::lround(c.b));
        }
    return p;
}

/// An area of the plan: what is seen there, and x in mm from the left of the picture.
struct Mask {
    const char* name = "";
    bool (*inside)(const Seen&, double x_mm) = nullptr;
};

const Mask masks[] = {
    // The stems are painted over the dry wall, so the wall runs on behind them.
    {"background", [](const Seen& s, double) { return s.thing == wall || s.thing == stems; }},
    // From the top of the left pear on: the dark end, into which its shadow side is lost.
    {"dark-end", [](const Seen& s, double x) { return (s.thing == wall || s.thing == stems) && x > 57; }},
    {"left-pear", [](const Seen& s, double) { return s.thing == left_pear; }},
    {"left-pear-shade", [](const Seen& s, double) { return s.thing == left_pear && s.tone < 0.42; }},
    {"right-pear", [](const Seen& s, double) { return s.thing == right_pear; }},
    {"right-pear-shade", [](const Seen& s, double) { return s.thing == right_pear && s.tone < 0.42; }},
    {"cast-shadow", [](const Seen& s, double) { return s.thing == cloth && s.in_shadow; }},
    {"table", [](const Seen& s, double) { return s.thing == table; }},
    {"stems", [](const Seen& s, double) { return s.thing == stems; }},
};

GreyPicture draw_mask(int pixels_per_mm, const Mask& mask) {
    GreyPicture m{width_mm * pixels_per_mm, height_mm * pixels_per_mm, {}};
    m.value.resize(std::size_t{1} * m.width * m.height);
#pragma omp parallel for schedule(dynamic)
    for (int y = 0; y < m.height; ++y)
        for (int x = 0; x < m.width; ++x) {
            const double x_mm = (x + 0.5) / pixels_per_mm, y_mm = (y + 0.5) / pixels_per_mm;
            m.value[static_cast<std::size_t>(y) * m.width + x] = mask.inside(look(x_mm, y_mm), x_mm) ? 1.0f : 0.0f;
        }
    return m;
}

} // namespace

int main(int argc, char** argv) try {
    if (argc != 2) {
        std::fprintf(stderr, "usage: draw_two_pears FOLDER\n");
        return 2;
    }
    tidemark::grid::OutputFolder out(argv[1]);
    out.write("reference.png", tidemark::grid::png_bytes(draw_reference(5), 5000));
    for (const Mask& mask : masks)
        out.write("masks/" + std::string(mask.name) + ".png", tidemark::grid::png_bytes(draw_mask(4, mask)));
    out.commit();
    return 0;
} catch (const std::exception& e) {
    std::fprintf(stderr, "draw_two_pears: %s\n", e.what());
    return 3;
}
