#include "reference/draft_text_detail.h"

#include <algorithm>
#include <fmt/format.h>
#include <string_view>

namespace tidemark::reference {

namespace {

/// A name as it may stand in a comment: a TOML comment holds no control characters and only valid UTF-8.
std::string plain(std::string_view name) {
    std::string text;
    for (const char c : name.substr(0, 80))
        text += c >= ' ' && c <= '~' ? c : '?';
    return text;
}

std::string opening(const Draft& d, const std::string& picture_name) {
    std::string text = fmt::format(
        R"(# A first plan, drafted from {}. It runs as it stands; make it your own.
#
# The picture was squinted at and grouped into {} values. Light to dark, one wash a value, each over all that is
# at least as dark: so every wash adds only what its value still lacks. Strengths aim at the mean value of each
# group (L*, 0 black to 100 white) once dry, on white paper; colour is only warm, cool, green or neutral.
)",
        plain(picture_name), d.groups);
    if (d.key.moves())
        text += fmt::format("# Its darkest values no paint reaches: L* {:.0f} to {:.0f} of the picture became {:.0f} to {:.0f} in reference.png.\n",
                            d.key.from_dark, d.key.from_light, d.key.to_dark, d.key.to_light);
    if (d.hangs_together > 0)
        text += fmt::format("# {:.0f} % of the midtones and darks hang together: one wash of {:.1f} minutes, from where it says \"from\".\n",
                            100 * d.hangs_together, d.connected_minutes);
    if (d.saved_share > 0)
        text += fmt::format("# {:.0f} % of the sheet is as light as paper and is left bare.\n", 100 * d.saved_share);
    text += fmt::format(R"(
tidemark = 1

[sheet]
size_mm = [{}, {}]
paper = "cold-pressed-300"
board = "sealed"              # sealed: the back can't dry, so a sheet wetted on both faces stays open longest
tilt_deg = 0                  # flat: wet-into-wet stays where it is put
room = "temperate-studio"
seed = 1

[reference]
picture = "reference.png"
groups = {}
)",
                        d.width_mm, d.height_mm, d.groups);
    return text;
}

/// Percent by weight so that the film lays the wanted load: 1 % in 100 um is 1 g/m2.
std::string mix_text(const DraftPass& p) {
    std::string text = fmt::format(
        "\n# {}: wanted L* {:.0f}, dries to about {:.0f}; {:.2g} g of pigment a square metre in {:.0f} um of wash\n",
        p.mix->looks, p.wanted_lstar, p.dries_to_lstar, p.load_g_m2, p.film_um);
    if (p.dries_to_lstar > p.wanted_lstar + 1.5)
        text += "# as dark as this mix goes in one strong wash; a darker one needs another pigment\n";
    text += fmt::format("[mix.{}]\n", area_name(p));
    for (const MixPart& part : p.mix->parts)
        text += fmt::format("{} = {:.3g}\n", part.pigment, part.share * p.load_g_m2 * 100 / p.film_um);
    return text;
}

std::string area_text(const DraftPass& p) {
    return fmt::format("\n[area.{0}] # {1:.0f} % of the sheet\nmask = \"masks/{0}.png\"\n", area_name(p),
                       100 * p.share);
}

std::string wash_text(const DraftPass& p, const std::string& before) {
    std::string text = "\n[[step]]\n";
    text += fmt::format("name = \"{}\"\ndo = \"wash\"\n", p.name);
    if (before.empty())
        text += "at = \"0:00\"\n";
    else
        text += fmt::format("after = \"{}\"\nwait = \"1:00\"\n", before);
    text += fmt::format("area = \"{0}\"\nmix = \"{0}\"\nfilm_um = {1:.0f}\npace_cm2_s = {2:g}\n", area_name(p), p.film_um,
                        wash_pace_cm2_s);
    if (p.start)
        text += fmt::format("from = [{:.0f}, {:.0f}]              # mm: an end of the shape; the hand goes through it from there\n",
                            p.start->x_mm, p.start->y_mm);
    else
        text += "travel = \"rows\"\n";
    return text;
}

std::string steps_text(const Draft& d) {
    std::string text, before;
    for (const DraftPass& p : d.passes) {
        if (p.into_wet) {
            text +=
                fmt::format("\n# Both faces, only where the first wash goes: what is saved stays dry and keeps its "
                            "edge.\n[[step]]\nname = \"wet the paper\"\ndo = \"wet\"\nat = \"0:00\"\nside = "
                            "\"both\"\nwater_g_m2 = 220\narea = \"{}\"\n",
                            area_name(p));
            before = "wet the paper";
        }
        text += wash_text(p, before);
        before = "dry the " + p.name;
        // Warm air pushes a wet film about, so the sheen goes first: a soaked sheet keeps it half an hour or more.
        text += fmt::format("\n[[step]]\nname = \"{}\"\ndo = \"dry\"\nwhen = {{ area = \"{}\", is = \"damp\", longest = \"180:00\" }} "
                            "# let the sheen go before warm air comes near\n",
                            before, area_name(p));
        text += "until = \"dry\"\nlongest = \"180:00\"\nwarm_air = true\n";
    }
    if (d.small_lights)
        text += fmt::format("\n# Lights too small to paint round: {}.\n[[step]]\nname = \"small lights\"\ndo = \"body\"\n"
                            "after = \"{}\"\narea = \"small-lights\"\nmix = \"body-white\"\npaint_g_m2 = 70\npace_cm2_s = 0.5\n",
                            d.small_light_count, before);
    return text;
}

/// What the picture's own edges are. Washes on dry paper come out hard or firm; a soft one asks for another way of painting.
std::string wants_text(const Draft& d) {
    std::string text, before;
    for (const DraftPass& p : d.passes) {
        if (!p.edge.empty() && !before.empty()) {
            const bool dry_gives_it = p.edge == "hard" || p.edge == "firm";
            const char* off = dry_gives_it ? "" : "# ";
            if (!dry_gives_it)
                text += fmt::format("# {} in the picture: lay \"{}\" while the paper is moist, or soften its edge, and take the # away.\n",
                                    p.edge, p.name);
            text += fmt::format("{0}[[want]] # {1:.1f} mm wide in the picture\n{0}between = [\"{2}\", \"{3}\"]\n{0}edge = \"{4}\"\n",
                                off, p.edge_mm, area_name(p), before, p.edge);
        }
        before = area_name(p);
    }
    if (text.empty())
        return text;
    return "\n# The edges of the picture, by how wide each change of value is there; change them to what you hope for: hard,\n"
           "# firm, soft or lost.\n" + text;
}

} // namespace

std::string area_name(const DraftPass& pass) {
    std::string name = pass.name;
    std::replace(name.begin(), name.end(), ' ', '-');
    return name;
}

std::string plan_text(const Draft& d, const std::string& picture_name) {
    std::string text = opening(d, picture_name);
    for (const DraftPass& p : d.passes)
        text += mix_text(p);
    if (d.small_lights)
        text += "\n# body colour\n[mix.body-white]\nPW6 = 30\n";
    for (const DraftPass& p : d.passes)
        text += area_text(p);
    if (d.small_lights)
        text += "\n[area.small-lights]\nmask = \"masks/small-lights.png\"\n";
    text += steps_text(d);
    text += wants_text(d);
    return text;
}

} // namespace tidemark::reference
