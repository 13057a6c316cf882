#include "crown.h"
#include "scene.h"

#include <span>

namespace orchard {
namespace {

struct Tree {
    const Crown& crown;
    double leaf_mm = 1; ///< size of a leaf
    unsigned salt = 0;
    double haze = 0;
};

const Tree near_tree{near_crown(), 2.0, 101, 0}, middle_tree{middle_crown(), 1.0, 131, 0.14},
    right_tree{right_crown(), 1.5, 161, 0.05};

/// The spray in front at a place, and how far inside it that is: 0 at its ragged edge, 1 at its middle.
struct Leaf {
    const Spray* spray = nullptr;
    double depth = -1;
    Point off;
};
Leaf leaf_at(const Tree& t, Point p) {
    Leaf leaf;
    const std::vector<int>* here = t.crown.near(p);
    if (!here)
        return leaf;
    const double bough = noise(p.x / (3.4 * t.leaf_mm), p.y / (3.0 * t.leaf_mm), t.salt);
    const double ragged = rough(p.x / (0.9 * t.leaf_mm), p.y / (0.8 * t.leaf_mm), t.salt + 7, 2);
    for (const int k : *here) {
        const Spray& s = t.crown.sprays[static_cast<std::size_t>(k)];
        const Point off{(p.x - s.x) / s.wide, (p.y - s.y) / s.high};
        const double depth = 1 - dot(off, off) + 0.30 * bough + 0.52 * ragged;
        leaf.depth = std::max(leaf.depth, depth);
        if (depth > 0)
            return {&s, depth, off};
    }
    return leaf;
}

/// Sprays lit from the left, each within the light and shade of its whole mass, broken up by single leaves.
Colour leaf_colour(const Tree& t, Point p, const Leaf& leaf) {
    const double small = 1.1 * t.leaf_mm;
    const double single = rough(p.x / small, p.y / (0.75 * small), t.salt + 13, 2);
    const double mass = noise(p.x / (11 * t.leaf_mm), p.y / (9 * t.leaf_mm), t.salt + 15);
    double tone = 0.31 + 0.30 * leaf.spray->light + 0.24 * (-0.75 * leaf.off.x - 0.7 * leaf.off.y) + 0.16 * mass;
    tone += (0.14 + 0.30 * tone) * single + 0.10 * (leaf.spray->own - 0.5);
    static const Scale scale{{{32, 40, 40}, {52, 64, 50}, {84, 96, 60}, {138, 142, 80}, {210, 200, 128}}};
    Colour c = on_scale(scale, tone);
    c = mixed(c, {160, 138, 76}, 0.22 * clamp01(1.6 * leaf.spray->own - 0.7));
    return mixed(c, {186, 194, 186}, t.haze);
}

bool apple(const Tree& t, Point p, double size_mm) {
    const double cell = 7.5 * size_mm;
    const int i = static_cast<int>(std::floor(p.x / cell)), j = static_cast<int>(std::floor(p.y / cell));
    if (chance(i, j, t.salt + 19) > 0.22)
        return false;
    const Point at{(i + 0.2 + 0.6 * chance(i, j, t.salt + 20)) * cell,
                   (j + 0.2 + 0.6 * chance(i, j, t.salt + 21)) * cell};
    return length(p - at) < size_mm * (0.7 + 0.5 * chance(i, j, t.salt + 22));
}

Maybe see_leaves(const Tree& t, Point p) {
    const Leaf leaf = leaf_at(t, p);
    if (!leaf.spray)
        return {};
    Colour c = leaf_colour(t, p, leaf);
    if (leaf.depth > 0.15 && apple(t, p, 0.58 * t.leaf_mm))
        c = mixed(c, mixed({120, 58, 44}, {214, 106, 62}, clamp01(0.5 - 0.5 * leaf.off.x)), 0.75);
    return Seen{Part::leaves, c};
}

/// Bark: dark, its left side lit.
Colour bark(Point p, const OnStroke& on, double haze) {
    const double lit = ramp(0.25, 0.95, -on.side.x) * (0.75 + 0.4 * noise(p.x / 1.2, p.y / 5, 191));
    const double rib = 0.10 * rough(p.x / 0.9, p.y / 6, 193, 2);
    static const Scale scale{{{30, 27, 30}, {48, 42, 42}, {72, 60, 54}, {132, 106, 82}, {214, 178, 130}}};
    return mixed(on_scale(scale, 0.20 + rib + 0.62 * lit), {176, 182, 180}, haze);
}

constexpr Stroke near_trunk[] = {
    {{25, 199}, {27, 168}, 9.5, 6.6}, {{27, 168}, {24, 128}, 6.6, 5.6}, {{24, 128}, {10, 88}, 4.8, 3.0},
    {{24, 130}, {38, 96}, 4.4, 3.0},  {{38, 96}, {58, 62}, 3.0, 1.6},   {{38, 97}, {34, 58}, 2.4, 1.2},
    {{10, 88}, {-6, 56}, 3.0, 1.8},   {{58, 62}, {82, 46}, 1.6, 0.8},   {{24.5, 207}, {26, 184}, 13.5, 7.2}};
constexpr Stroke middle_trunk[] = {{{242, 161}, {243, 138}, 3.0, 2.1},
                                   {{243, 138}, {240, 118}, 2.1, 1.8},
                                   {{240, 119}, {229, 98}, 1.5, 0.8},
                                   {{241, 122}, {254, 96}, 1.5, 0.8},
                                   {{240, 118}, {242, 84}, 1.4, 0.7}};
constexpr Stroke right_trunk[] = {
    {{372, 170}, {373, 128}, 4.4, 3.4}, {{373, 128}, {380, 96}, 3.2, 2.4}, {{373, 130}, {360, 92}, 2.4, 1.2}};

Maybe see_trunk(std::span<const Stroke> strokes, Point p, double haze, double foot) {
    if (p.y > foot + 0.8 * noise(p.x / 1.3, 0.5, 195))
        return {};
    const Point wavy{p.x + 0.5 * rough(p.x / 5, p.y / 5, 197, 2), p.y};
    for (const Stroke& s : strokes)
        if (const OnStroke on = on_stroke(s, wavy); on.out < 1)
            return Seen{Part::trunk, bark(p, on, haze)};
    return {};
}

/// Some leaves hang in front of the branches.
Maybe see_tree(const Tree& t, std::span<const Stroke> trunk, Point p, double foot) {
    const Maybe leaf = see_leaves(t, p);
    if (leaf && noise(p.x / (3 * t.leaf_mm), p.y / (3 * t.leaf_mm), t.salt + 23) > -0.15)
        return leaf;
    if (const Maybe wood = see_trunk(trunk, p, t.haze, foot))
        return wood;
    return leaf;
}

constexpr Stroke twigs[] = {
    {{82, 46}, {112, 40}, 0.8, 0.25},  {{60, 62}, {96, 66}, 0.9, 0.25},   {{96, 66}, {108, 72}, 0.35, 0.15},
    {{30, 110}, {58, 98}, 0.9, 0.3},   {{58, 98}, {68, 104}, 0.4, 0.15},  {{92, 43}, {110, 54}, 0.5, 0.15},
    {{14, 100}, {-2, 116}, 0.9, 0.4},  {{355, 12}, {322, 12}, 0.7, 0.2},  {{340, 12}, {326, 22}, 0.45, 0.12},
    {{376, 30}, {352, 40}, 0.7, 0.2},  {{360, 92}, {338, 74}, 0.9, 0.25}, {{229, 98}, {214, 92}, 0.5, 0.15},
    {{254, 96}, {270, 90}, 0.5, 0.15}, {{242, 84}, {234, 60}, 0.5, 0.15}, {{242, 86}, {254, 66}, 0.5, 0.15}};

} // namespace

bool on_twig(Point p) {
    const Point wavy{p.x + 0.8 * noise(p.x / 6, p.y / 6, 198), p.y + 0.8 * noise(p.x / 6, p.y / 6, 199)};
    for (const Stroke& s : twigs)
        if (on_stroke(s, wavy).out < 1)
            return true;
    return false;
}

Maybe see_near_tree(Point p) { return p.x > 140 || p.y > 206 ? Maybe{} : see_tree(near_tree, near_trunk, p, 203.5); }
Maybe see_middle_tree(Point p) {
    return p.x < 195 || p.x > 290 || p.y > 166 || p.y < 40 ? Maybe{} : see_tree(middle_tree, middle_trunk, p, 160.5);
}
Maybe see_right_tree(Point p) { return p.x < 290 || p.y > 176 ? Maybe{} : see_tree(right_tree, right_trunk, p, 171); }

double tree_hides(Point p, double soft) {
    if (p.x < 195 || p.x > 290 || p.y < 40)
        return 0;
    const double crown = ramp(-0.1 - 0.06 * soft, 0.1 + 0.06 * soft, leaf_at(middle_tree, p).depth);
    double trunk = 0;
    for (const Stroke& s : middle_trunk)
        trunk = std::max(trunk, ramp(1.0 + 0.3 * soft, 1.0 - 0.3 * soft, on_stroke(s, p).out));
    return std::max(crown, trunk);
}

} // namespace orchard
