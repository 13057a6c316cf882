#include "sheet/look.h"

#include <algorithm>

#include "colour/lab.h"
#include "grid/rows.h"
#include "grid/within.h"
#include "sheet/uneven.h"

namespace tidemark::sheet {

namespace {

using colour::BodyReflectance;
using materials::Pigment;

/// K X and S X of one layer, gathered pigment by pigment.
struct Layer {
    colour::Bands KX{}, SX{};
    bool empty = true;
    void add(const Pigment& pigment, float kg_m2) {
        if (!(kg_m2 > 0)) return;
        empty = false;
        for (std::size_t k = 0; k < colour::bands; ++k) {
            KX[k] += kg_m2 * pigment.K_m2_kg[k];
            SX[k] += kg_m2 * pigment.S_m2_kg[k];
        }
    }
    void lay_over(BodyReflectance& body) const {
        if (!empty) body = colour::km_over(KX, SX, body);
    }
};

void check(const Pigment& pigment) {
    constexpr grid::Allowed allowed{0, 1e5, "m²/kg"};
    for (std::size_t k = 0; k < colour::bands; ++k) {
        grid::within("pigment.K_m2_kg", pigment.K_m2_kg[k], allowed);
        grid::within("pigment.S_m2_kg", pigment.S_m2_kg[k], allowed);
    }
}

void check(const materials::Paper& paper) {
    for (const float white : paper.white.at) grid::within("paper.white", white, {0, 1});
}

float afloat(const PigmentState& p, int i, int j) { return p.afloat_lower(i, j) + p.afloat_upper(i, j); }

/// Lays every pass of that cell over its ground. `uneven`, by pigment, and `side` +1 or -1: of which half (uneven.h); or
/// nullptr.
void paint(const SheetState& sheet, LookAs as, int i, int j, const float* uneven, float side, BodyReflectance& body) {
    const auto share = [&](std::size_t p) { return uneven ? 1 + side * uneven[p] : 1.0f; };
    for (const Pass& pass : sheet.passes) {
        Layer layer;
        for (std::size_t p = 0; p < pass.bound.size(); ++p)
            layer.add(sheet.pigments[p].pigment, share(p) * pass.bound[p](i, j));
        layer.lay_over(body);
    }
    Layer present, floating;
    for (std::size_t k = 0; k < sheet.pigments.size(); ++k) {
        const PigmentState& p = sheet.pigments[k];
        present.add(p.pigment, share(k) * (p.loose(i, j) + p.bound(i, j) + p.inside(i, j)));
        (as == LookAs::dried ? present : floating).add(p.pigment, share(k) * afloat(p, i, j));
    }
    present.lay_over(body);
    floating.lay_over(body);
}

struct Seen {
    float lstar = 0;
    colour::Srgb8 code;
};

Seen see(const colour::Reflectance& reflected) {
    const colour::Xyz xyz = colour::xyz_from(reflected);
    return {static_cast<float>(colour::lstar_from_Y(xyz.Y)), colour::srgb_from(xyz)};
}

} // namespace

BodyReflectance ground_of(const materials::Paper& paper) {
    return colour::body_from_seen(colour::dry_matt, paper.white);
}

double wet_share(const materials::Paper& paper, double front_kg_m2) {
    const double half = half_capacity_kg_m2(paper);
    const double bound = std::min(half_equilibrium_kg_m2(paper, 1.0), 0.9 * half); // a sheet of next to no capacity
    return std::clamp((front_kg_m2 - bound) / (half - bound), 0.0, 1.0);
}

Look look(const SheetState& sheet, LookAs as) {
    check(sheet.paper);
    for (const PigmentState& p : sheet.pigments) check(p.pigment);
    const int nx = sheet.geometry.nx, ny = sheet.geometry.ny;
    Look out{grid::Field<float>(nx, ny), {nx, ny, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(nx) * ny)}};
    const BodyReflectance dry_ground = ground_of(sheet.paper), full_ground = colour::wetted(dry_ground, 1);
    const Unevenness unevenness(sheet);
    grid::for_rows(ny, static_cast<long>(nx) * ny, [&](int j) {
        for (int i = 0; i < nx; ++i) {
            BodyReflectance body = dry_ground;
            bool film = false;
            if (as == LookAs::as_now) {
                film = sheet.film_m(i, j) > 0;
                const float share = static_cast<float>(wet_share(sheet.paper, sheet.front_kg_m2(i, j)));
                for (std::size_t k = 0; k < colour::bands; ++k)
                    body.at[k] += share * (full_ground.at[k] - dry_ground.at[k]);
            }
            const colour::Surface& surface = film ? colour::under_water : colour::dry_matt;
            const float* uneven = unevenness.at(i, j);
            BodyReflectance other = body;
            paint(sheet, as, i, j, uneven, 1, body);
            colour::Reflectance reflected = colour::seen_through(surface, body);
            if (uneven) {
                paint(sheet, as, i, j, uneven, -1, other);
                const colour::Reflectance half = colour::seen_through(surface, other);
                for (std::size_t k = 0; k < colour::bands; ++k) reflected.at[k] = 0.5f * (reflected.at[k] + half.at[k]);
            }
            const Seen seen = see(reflected);
            out.lstar(i, j) = seen.lstar;
            std::uint8_t* pixel = out.picture.at(i, j);
            pixel[0] = seen.code.r, pixel[1] = seen.code.g, pixel[2] = seen.code.b;
        }
    });
    return out;
}

colour::Reflectance layer_seen(const materials::Paper& paper,
                               const std::vector<std::pair<const materials::Pigment*, double>>& mix, LookAs as) {
    check(paper);
    Layer layer;
    for (const auto& [pigment, kg_m2] : mix) {
        check(*pigment);
        grid::within("load_kg_m2", kg_m2, {0, 10, "kg/m²"});
        layer.add(*pigment, static_cast<float>(kg_m2));
    }
    BodyReflectance body = ground_of(paper);
    if (as == LookAs::as_now) body = colour::wetted(body, 1);
    layer.lay_over(body);
    return colour::seen_through(as == LookAs::as_now ? colour::under_water : colour::dry_matt, body);
}

double dried_lstar(const materials::Paper& paper,
                   const std::vector<std::pair<const materials::Pigment*, double>>& mix) {
    return see(layer_seen(paper, mix, LookAs::dried)).lstar;
}

} // namespace tidemark::sheet
