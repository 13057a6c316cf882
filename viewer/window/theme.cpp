#include "viewer/window/theme.h"

#include <algorithm>

#include "colour/lab.h"

namespace tidemark::viewer {

Theme light_theme() { return {}; }

Theme dark_theme() {
    Theme t;
    t.dark = true;
    t.ground = rgb(0x24272A);
    t.slip = rgb(0x2E3236);
    t.hover = rgb(0x3A4046);
    t.rule = rgb(0x474D53);
    t.ink = rgb(0xECE8DF);
    t.quiet = rgb(0xB4AFA4);
    t.accent = rgb(0x8FC1D4);
    t.warning = rgb(0xE8A06C);
    return t;
}

std::vector<Pair> text_pairs(const Theme& t) {
    return {{"ink on ground", t.ink, t.ground},         {"ink on slip", t.ink, t.slip},
            {"ink on hover", t.ink, t.hover},           {"quiet on ground", t.quiet, t.ground},
            {"quiet on slip", t.quiet, t.slip},         {"quiet on hover", t.quiet, t.hover},
            {"accent on ground", t.accent, t.ground},   {"accent on slip", t.accent, t.slip},
            {"accent on hover", t.accent, t.hover},     {"warning on ground", t.warning, t.ground},
            {"warning on slip", t.warning, t.slip},     {"warning on hover", t.warning, t.hover},
            {"ground on accent", t.ground, t.accent},   {"mat ink on mat", t.mat_ink, t.mat}};
}

double contrast(Colour a, Colour b) {
    const auto Y = [](Colour c) {
        return colour::xyz_from_srgb({static_cast<std::uint8_t>(c & 0xFF), static_cast<std::uint8_t>((c >> 8) & 0xFF),
                                      static_cast<std::uint8_t>((c >> 16) & 0xFF)})
                   .Y /
               100;
    };
    const double high = std::max(Y(a), Y(b)), low = std::min(Y(a), Y(b));
    return (high + 0.05) / (low + 0.05);
}

} // namespace tidemark::viewer
