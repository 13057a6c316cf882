#include "scene.h"

#include <span>

/// Two pickers, each a handful of strokes in metres: u to the right of the feet, v up. Both heads are at eye height.
namespace orchard {
namespace {

enum class Cloth { hat, skin, shirt, trousers, skirt, basket };
struct Limb {
    Stroke s;
    Cloth cloth = Cloth::shirt;
};

// From the back, walking away, a basket on the right hip.
constexpr Limb near_limbs[] = {{{{-0.165, 1.635}, {0.165, 1.65}, 0.030, 0.028}, Cloth::hat},
                               {{{-0.02, 1.685}, {0.03, 1.69}, 0.095, 0.088}, Cloth::hat},
                               {{{0.0, 1.60}, {0.0, 1.53}, 0.092, 0.07}, Cloth::skin},
                               {{{0.33, 0.98}, {0.50, 0.98}, 0.13, 0.12}, Cloth::basket},
                               {{{0.175, 1.36}, {0.31, 1.14}, 0.075, 0.06}, Cloth::shirt},
                               {{{0.31, 1.14}, {0.40, 1.01}, 0.055, 0.042}, Cloth::skin},
                               {{{-0.18, 1.36}, {-0.25, 1.10}, 0.074, 0.058}, Cloth::shirt},
                               {{{-0.25, 1.10}, {-0.22, 0.84}, 0.050, 0.040}, Cloth::skin},
                               {{{0.0, 1.30}, {0.01, 1.0}, 0.195, 0.165}, Cloth::shirt},
                               {{{-0.13, 1.37}, {0.13, 1.37}, 0.085, 0.085}, Cloth::shirt},
                               {{{0.01, 0.92}, {0.01, 0.80}, 0.175, 0.19}, Cloth::trousers},
                               {{{-0.09, 0.80}, {-0.13, 0.42}, 0.115, 0.085}, Cloth::trousers},
                               {{{-0.13, 0.42}, {-0.12, 0.05}, 0.085, 0.07}, Cloth::trousers},
                               {{{0.09, 0.80}, {0.15, 0.44}, 0.115, 0.085}, Cloth::trousers},
                               {{{0.15, 0.44}, {0.13, 0.10}, 0.085, 0.068}, Cloth::trousers},
                               {{{-0.12, 0.035}, {-0.02, 0.025}, 0.05, 0.035}, Cloth::trousers},
                               {{{0.13, 0.07}, {0.22, 0.05}, 0.055, 0.035}, Cloth::trousers}};
// From the side, reaching up into the middle tree on the right.
constexpr Limb far_limbs[] = {{{{-0.05, 1.68}, {0.03, 1.68}, 0.10, 0.085}, Cloth::hat},
                              {{{-0.17, 1.64}, {0.15, 1.67}, 0.04, 0.03}, Cloth::hat},
                              {{{0.01, 1.60}, {0.01, 1.53}, 0.092, 0.07}, Cloth::skin},
                              {{{0.14, 1.38}, {0.33, 1.62}, 0.075, 0.058}, Cloth::shirt},
                              {{{0.33, 1.62}, {0.42, 1.92}, 0.055, 0.042}, Cloth::skin},
                              {{{0.08, 1.37}, {0.20, 1.70}, 0.07, 0.05}, Cloth::shirt},
                              {{{0.20, 1.70}, {0.22, 1.95}, 0.048, 0.038}, Cloth::skin},
                              {{{-0.01, 1.33}, {-0.02, 1.02}, 0.175, 0.15}, Cloth::shirt},
                              {{{-0.02, 0.98}, {-0.05, 0.34}, 0.165, 0.27}, Cloth::skirt},
                              {{{-0.12, 0.3}, {-0.10, 0.04}, 0.07, 0.06}, Cloth::trousers},
                              {{{0.08, 0.3}, {0.09, 0.04}, 0.07, 0.06}, Cloth::trousers}};

struct Figure {
    std::span<const Limb> limbs;
    double x = 0, scale = 1, haze = 0;
    unsigned salt = 0;
};
const Figure near_figure{near_limbs, 140, 46, 0, 211}, far_figure{far_limbs, 226, 25, 0.12, 223};

Colour cloth_colour(Cloth cloth, double tone) {
    static const Scale hats{{{92, 78, 66}, {134, 112, 84}, {182, 154, 108}, {232, 206, 150}, {255, 242, 206}}};
    static const Scale skins{{{74, 54, 48}, {112, 80, 66}, {158, 114, 90}, {222, 172, 134}, {255, 226, 190}}};
    static const Scale shirts{{{78, 84, 104}, {100, 107, 126}, {146, 149, 160}, {240, 232, 216}, {255, 251, 236}}};
    static const Scale trousers{{{38, 42, 56}, {54, 60, 76}, {76, 82, 96}, {126, 124, 124}, {190, 178, 158}}};
    static const Scale skirts{{{62, 52, 62}, {86, 72, 78}, {116, 94, 92}, {176, 142, 120}, {228, 196, 158}}};
    static const Scale baskets{{{54, 42, 36}, {84, 64, 48}, {120, 92, 62}, {178, 142, 94}, {232, 200, 142}}};
    switch (cloth) {
    case Cloth::hat:
        return on_scale(hats, tone);
    case Cloth::skin:
        return on_scale(skins, tone);
    case Cloth::shirt:
        return on_scale(shirts, tone);
    case Cloth::trousers:
        return on_scale(trousers, tone);
    case Cloth::skirt:
        return on_scale(skirts, tone);
    default:
        return on_scale(baskets, tone);
    }
}

/// Light on the cloth at a place: strokes of one garment run into each other.
double light_on(const Figure& f, Cloth cloth, Point worn) {
    double sum = 0, weight = 0;
    for (const Limb& limb : f.limbs) {
        const OnStroke on = on_stroke(limb.s, worn);
        if (limb.cloth != cloth || on.out >= 1)
            continue;
        const double towards = std::sqrt(std::max(0.0, 1 - on.out * on.out)), w = 0.02 + (1 - on.out) * (1 - on.out);
        sum += w * (-0.86 * on.side.x + 0.36 * on.side.y - 0.34 * towards);
        weight += w;
    }
    return weight > 0 ? sum / weight : 0;
}

Maybe see_figure(const Figure& f, Point p) {
    const double ground = eye_line_mm + eye_m * f.scale;
    const Point at{(p.x - f.x) / f.scale, (ground - p.y) / f.scale};
    if (std::fabs(at.x) > 0.75 || at.y < -0.05 || at.y > 2.1)
        return {};
    const Point worn{at.x + 0.012 * noise(9 * at.x, 7 * at.y, f.salt),
                     at.y + 0.012 * noise(8 * at.x, 9 * at.y, f.salt + 1)};
    for (const Limb& limb : f.limbs) {
        const OnStroke on = on_stroke(limb.s, worn);
        if (on.out >= 1)
            continue;
        const double light = light_on(f, limb.cloth, worn);
        const double fold = 0.16 * rough(p.x / (0.10 * f.scale), p.y / (0.22 * f.scale), f.salt + 3, 3);
        const bool deep = limb.cloth == Cloth::trousers || limb.cloth == Cloth::basket;
        const double tone =
            0.20 + 0.72 * ramp(deep ? 0.05 : -0.16, 0.40, light + fold) + 0.5 * fold - 0.06 * on.side.x;
        const bool head =
            limb.cloth == Cloth::hat || (limb.cloth == Cloth::skin && at.y > 1.45 && std::fabs(at.x) < 0.13);
        Colour c = mixed(cloth_colour(limb.cloth, tone), {190, 192, 184}, f.haze);
        if (limb.cloth == Cloth::basket && at.y > 0.98 + 0.02 * noise(p.x, p.y, f.salt + 5))
            c = mixed({120, 52, 40}, {214, 104, 58},
                      clamp01(0.4 + 0.8 * light + 0.6 * noise(p.x / 1.6, p.y / 1.6, f.salt + 6)));
        const double brace = std::fabs(std::fabs(worn.x - 0.01) - 0.03 - 0.16 * (worn.y - 0.95));
        if (f.salt == near_figure.salt && limb.cloth == Cloth::shirt && brace < 0.017 && worn.y > 0.95)
            c = mixed({70, 52, 48}, {150, 110, 84}, ramp(0.3, 0.8, tone)); // braces, crossing low on the back
        const bool light_cloth = limb.cloth == Cloth::shirt || limb.cloth == Cloth::skin;
        Seen seen{head ? Part::head : light_cloth && tone > 0.52 ? Part::clothes_lit : Part::clothes_shade, c};
        seen.glint = head && tone > 0.72;
        return seen;
    }
    return {};
}

} // namespace

Maybe see_near_picker(Point p) { return see_figure(near_figure, p); }
Maybe see_far_picker(Point p) { return see_figure(far_figure, p); }

} // namespace orchard
