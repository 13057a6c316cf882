#include "viewer/studio/looks.h"

#include "grid/problem.h"
#include "report/value_compare.h"

#include <algorithm>
#include <cmath>

namespace tidemark::viewer {

namespace {

struct Rgb {
    double r, g, b; ///< 0 ... 255
};

Pixels blank(int width, int height) {
    return {width, height, std::vector<std::uint8_t>(static_cast<std::size_t>(width) * height * 4, 255)};
}

void put(Pixels& p, std::size_t k, double r, double g, double b) {
    const auto byte = [](double v) { return static_cast<std::uint8_t>(std::lround(std::clamp(v, 0.0, 255.0))); };
    p.rgba[4 * k] = byte(r), p.rgba[4 * k + 1] = byte(g), p.rgba[4 * k + 2] = byte(b);
}
void put(Pixels& p, std::size_t k, std::uint8_t grey) { p.rgba[4 * k] = p.rgba[4 * k + 1] = p.rgba[4 * k + 2] = grey; }

Pixels of_rgb(const std::vector<std::uint8_t>& rgb, int width, int height) {
    Pixels p = blank(width, height);
    for (std::size_t k = 0; 3 * k < rgb.size(); ++k) std::copy_n(&rgb[3 * k], 3, &p.rgba[4 * k]);
    return p;
}

/// Greys by L* code, computed once a picture.
std::vector<std::uint8_t> greys_of_codes() {
    std::vector<std::uint8_t> greys(256);
    for (int c = 0; c < 256; ++c) greys[static_cast<std::size_t>(c)] = grey_of(lstar_of(static_cast<std::uint8_t>(c)));
    return greys;
}

reference::ValueMap map_of(const Moment& m) {
    reference::ValueMap map{m.nx, m.ny, std::vector<float>(m.lstar_code.size())};
    std::transform(m.lstar_code.begin(), m.lstar_code.end(), map.lstar.begin(), lstar_of);
    return map;
}

/// In the reference's few values, by its own cuts; of a sheet without one, by the usual cuts of the sheet itself.
Pixels in_groups(const reference::ValueMap& map, const reference::Groups* of_reference) {
    const reference::Groups own = of_reference ? reference::group_with(map, of_reference->thresholds) : reference::group_values(map, 3);
    const auto& means = of_reference ? of_reference->mean_lstar : own.mean_lstar;
    Pixels p = blank(map.width, map.height);
    std::vector<std::uint8_t> greys;
    for (const float mean : means) greys.push_back(grey_of(std::isnan(mean) ? 50 : mean));
    for (std::size_t k = 0; k < own.group.size(); ++k) put(p, k, greys[own.group[k]]);
    return p;
}

/// Paper from pale (dry) to a middle grey (soaked), film over it to deep blue at a millimetre: always the darker the wetter.
Rgb water_tone(double film_um, double moisture) {
    const double damp = std::clamp((moisture - 0.1) / 0.9, 0.0, 1.0);
    const Rgb paper{244 - 70 * damp, 242 - 58 * damp, 236 - 38 * damp};
    const double film = film_um < 1 ? 0 : std::clamp(0.15 + 0.85 * std::log10(film_um / 2 + 1) / std::log10(501.0), 0.0, 1.0);
    return {paper.r + film * (22 - paper.r), paper.g + film * (52 - paper.g), paper.b + film * (96 - paper.b)};
}

Pixels of_water(const Moment& m) {
    Pixels p = blank(m.nx, m.ny);
    for (std::size_t k = 0; k < m.film_code.size(); ++k) {
        const Rgb tone = water_tone(film_um(m.film_code[k]), m.moisture_code[k] / 255.0);
        put(p, k, tone.r, tone.g, tone.b);
    }
    return p;
}

Pixels of_difference(const Moment& m, const reference::ValueMap& other) {
    Pixels p = blank(m.nx, m.ny);
    for (std::size_t k = 0; k < m.lstar_code.size(); ++k) {
        const auto tone = report::difference_tone(lstar_of(m.lstar_code[k]) - other.lstar[k]);
        put(p, k, tone.r, tone.g, tone.b);
    }
    return p;
}

} // namespace

std::uint8_t grey_of(double lstar) {
    const double f = (lstar + 16) / 116, y = lstar > 8 ? f * f * f : lstar / 903.3;
    const double code = y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055;
    return static_cast<std::uint8_t>(std::lround(255 * std::clamp(code, 0.0, 1.0)));
}

const char* look_name(LookKind look) {
    switch (look) {
    case LookKind::now: return "as it looks now";
    case LookKind::dried: return "as it will dry";
    case LookKind::values: return "values";
    case LookKind::groups: return "groups";
    case LookKind::water: return "water";
    case LookKind::difference: return "difference";
    }
    return "";
}

unsigned parts_for(LookKind look) { return look == LookKind::now ? part_now : look == LookKind::water ? part_water : part_dried; }

ReferenceValues::ReferenceValues(const plan::Reference& r) : own_(reference::value_map(r.picture)), groups_(reference::group_values(own_, r.groups)) {}

const reference::ValueMap& ReferenceValues::map(int width, int height) const {
    if (sized_.width != width || sized_.height != height) sized_ = reference::resized(own_, width, height);
    return sized_;
}

Pixels pixels_of(const Moment& m, LookKind look, const LookAt& at) {
    if ((m.parts & parts_for(look)) == 0) throw grid::InternalError("a moment without what is to be looked at");
    switch (look) {
    case LookKind::now: return of_rgb(m.now_rgb, m.nx, m.ny);
    case LookKind::dried: return of_rgb(m.dried_rgb, m.nx, m.ny);
    case LookKind::water: return of_water(m);
    case LookKind::groups: return in_groups(map_of(m), at.reference ? &at.reference->groups() : nullptr);
    case LookKind::difference:
        if (!at.reference) throw grid::InternalError("a difference without a reference");
        return of_difference(m, at.reference->map(m.nx, m.ny));
    case LookKind::values: break;
    }
    static const std::vector<std::uint8_t> greys = greys_of_codes();
    Pixels p = blank(m.nx, m.ny);
    for (std::size_t k = 0; k < m.lstar_code.size(); ++k) put(p, k, greys[m.lstar_code[k]]);
    return p;
}

Pixels pixels_of_change(const Moment& after, const Moment& before) {
    if ((after.parts & before.parts & part_dried) == 0) throw grid::InternalError("a moment without what is to be compared");
    return of_difference(after, reference::resized(map_of(before), after.nx, after.ny));
}

Pixels reference_pixels(const plan::Plan& plan, const ReferenceValues& values, LookKind look, int width, int height) {
    if (look == LookKind::values || look == LookKind::difference) {
        const auto& map = values.map(width, height);
        Pixels p = blank(width, height);
        for (std::size_t k = 0; k < map.lstar.size(); ++k) put(p, k, grey_of(map.lstar[k]));
        return p;
    }
    if (look == LookKind::groups) return in_groups(values.map(width, height), &values.groups());
    return of_rgb(grid::resized(plan.reference->picture, width, height).rgb, width, height);
}

} // namespace tidemark::viewer
