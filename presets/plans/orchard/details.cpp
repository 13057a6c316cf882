#include "scene.h"

namespace orchard {
namespace {

void mark(Seen& seen, Colour c) {
    seen.mark = true;
    seen.glint = false;
    seen.colour = c;
}

/// A ladder leant into the crown of the near tree: two rails that draw together, rungs between them.
bool ladder(Point p, double& lit) {
    const double up = (189 - p.y) / (189 - 62);
    if (up < 0 || up > 1)
        return false;
    const double left = 58 - 10 * up, right = 73 - 19.5 * up;
    for (const double rail : {left, right})
        if (std::fabs(p.x - rail) < 0.85 - 0.25 * up) {
            lit = p.x < rail - 0.2 ? 1 : 0;
            return true;
        }
    const double rung = up * 13.5 * (1 + 0.15 * up), off = rung - std::floor(rung);
    lit = 0;
    return p.x > left && p.x < right && off > 0.44 && off < 0.56;
}

/// A basket of apples: wider above, plaited.
bool basket(Point p, Point foot, double high, Colour& c) {
    const double v = (foot.y - p.y) / high, half = high * (0.58 + 0.16 * v), u = (p.x - foot.x) / half;
    if (v < 0 || u * u > 1 || v > 1 + 0.22 * (1 - u * u))
        return false;
    const double light = 0.42 - 0.5 * u + 0.5 * noise(p.x / 0.9, p.y / 0.8, 361);
    c = v > 0.94 ? mixed({112, 48, 38}, {222, 120, 66}, clamp01(light))
                 : mixed({48, 38, 34}, {168, 130, 86}, clamp01(light - 0.1));
    return true;
}

/// Spade, rake and fork against the lit wall of the shed, a can and pots at its corner.
bool tools(Point p) {
    static const Stroke shafts[] = {{{270, 172}, {276.5, 136}, 0.5, 0.4},  {{276, 173}, {281, 140}, 0.55, 0.4},
                                    {{282.5, 173}, {284, 134}, 0.45, 0.4}, {{268.6, 172}, {269.6, 166.5}, 1.9, 1.6},
                                    {{279, 140}, {283, 140}, 0.4, 0.4},    {{281.6, 173}, {283.6, 168}, 1.5, 1.2}};
    for (const Stroke& s : shafts)
        if (on_stroke(s, p).out < 1)
            return true;
    for (const double x : {349.5, 354.0, 358.2})
        if (p.y < 172 && p.y > 167.2 && std::fabs(p.x - x) < 1.5 + 0.10 * (172 - p.y))
            return true;
    return on_stroke({{312, 171}, {312, 167.5}, 2.8, 2.4}, p).out < 1 ||
           on_stroke({{314, 168}, {319, 164}, 0.5, 0.4}, p).out < 1;
}

} // namespace

void add_blades(Point p, Seen& seen) {
    if (p.y < 176)
        return;
    // Blades in rows that grow with nearness; each is bent, tapers upwards and is dark or, now and then, lit.
    for (int row = 0; row < 34; ++row) {
        const double depth = (row + 0.5) / 34, foot_row = 186 + 108 * depth * depth;
        const double high = (foot_row - eye_line_mm) / eye_m * 0.13, cell = 0.19 * high + 0.35;
        const bool behind_things = seen.part != Part::path && seen.part != Part::grass && foot_row < 199;
        if (behind_things || p.y > foot_row + 2 || p.y < foot_row - 1.4 * high)
            continue;
        const int middle = static_cast<int>(std::floor(p.x / cell));
        for (int i = middle - 4; i <= middle + 4; ++i) {
            const Point foot{(i + chance(i, row, 371)) * cell, foot_row + 2 * chance(i, row, 372)};
            const double clump = noise(foot.x / (2.1 * high), row * 0.83, 373) + (on_path(foot, -0.16) ? -9
                                                                                  : on_path(foot, 0.2) ? 0.15
                                                                                                       : 0);
            if (clump < 0.06 + 0.5 * chance(i, row, 374))
                continue;
            const double tall = high * (0.45 + 0.75 * chance(i, row, 375)), t = (foot.y - p.y) / tall;
            if (t < 0 || t > 1)
                continue;
            const double lean = (chance(i, row, 376) - 0.45) * 0.95 * tall;
            if (std::fabs(p.x - foot.x - lean * t * t) > (0.030 * high + 0.08) * (1.05 - t))
                continue;
            if (chance(i, row, 377) < 0.33 && !seen.foreground)
                seen.colour = mixed(seen.colour, {232, 222, 150}, 0.8);
            else
                mark(seen, mixed(seen.foreground ? Colour{30, 38, 36} : Colour{72, 80, 50}, seen.colour, 0.25));
            return;
        }
    }
}

void add_marks(Point p, Seen& seen) {
    double lit = 0;
    Colour c;
    if (on_twig(p) && (seen.part == Part::leaves || seen.part == Part::sky || seen.part == Part::far_trees))
        mark(seen, seen.part == Part::leaves ? Colour{44, 40, 38} : Colour{78, 70, 66});
    const bool hidden_by_leaves =
        seen.part == Part::leaves && noise(p.x / 5, p.y / 5, 381) > -0.1 - ramp(120, 90, p.y);
    if (p.x > 44 && p.x < 76 && !hidden_by_leaves && ladder(p, lit))
        mark(seen, lit > 0 ? Colour{190, 156, 112} : Colour{60, 50, 46});
    if (basket(p, {82, 197}, 10, c) || basket(p, {93, 193}, 8.5, c) || basket(p, {240, 205}, 9.5, c))
        mark(seen, c);
    if (p.x > 264 && p.x < 362 && p.y > 130 && p.y < 175 && seen.part != Part::cart_body &&
        seen.part != Part::cart_accent && seen.part != Part::cart_dark && tools(p))
        mark(seen, mixed({52, 46, 46}, {118, 96, 78}, clamp01(0.3 + 0.5 * noise(p.x, p.y, 383))));
}

} // namespace orchard
