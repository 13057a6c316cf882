#include "reference/draft_text_detail.h"

#include "grid/clean_text.h"
#include "grid/csv.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace tidemark::reference {

std::string sheet_text(const SheetSize& sheet, int groups) {
    return fmt::format(R"(
tidemark = 1

[sheet]
size_mm = [{:g}, {:g}]
paper = "cold-pressed-300"
board = "sealed"              # sealed: the back can't dry, so a sheet wetted on both faces stays open longest
tilt_deg = 0                  # flat: wet-into-wet stays where it is put
room = "temperate-studio"
seed = 1

[reference]
picture = "reference.png"
groups = {}
)",
                       sheet.width_mm, sheet.height_mm, groups);
}

namespace {

std::string opening(const Draft& d) {
    std::string text = fmt::format(
        R"(# A first plan, drafted from {}. It runs as it stands; make it your own.
#
# The picture was squinted at and grouped into {} values. Light to dark, one wash a value, each over all that is
# at least as dark: so every wash adds only what its value still lacks. Strengths aim at the mean value of each
# group (L*, 0 black to 100 white) once dry, on white paper; colour is only warm, cool, green or neutral.
)",
        grid::clean_text(d.picture_name, 80), d.groups);
    if (d.key.moves())
        text += fmt::format("# Its darkest values no paint reaches: L* {:.0f} to {:.0f} of the picture became {:.0f} to {:.0f} in reference.png.\n",
                            d.key.from_dark, d.key.from_light, d.key.to_dark, d.key.to_light);
    if (d.hangs_together > 0)
        text += fmt::format("# {:.0f} % of the midtones and darks hang together: one wash of {:.1f} minutes, from where it says \"from\".\n",
                            100 * d.hangs_together, d.connected_minutes);
    if (d.saved_share > 0)
        text += fmt::format("# {:.0f} % of the sheet is as light as paper and is left bare.\n", 100 * d.saved_share);
    text += sheet_text({d.width_mm, d.height_mm}, d.groups);
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

std::string mask_text(const std::string& name, const std::string& said) {
    return fmt::format("\n[area.{0}]{1}\nmask = \"masks/{0}.png\"\n", name, said);
}

std::string areas_text(const Draft& d) {
    std::string text;
    for (const DraftPass& p : d.passes) {
        text += mask_text(area_name(p), fmt::format(" # {:.0f} % of the sheet", 100 * p.share));
        if (p.soft)
            text += mask_text(soft_area_name(p), fmt::format(" # lights along which the picture is soft: {:.0f} % of the outline", 100 * p.soft->share));
    }
    if (d.small_lights)
        text += mask_text(small_lights_name, "");
    for (const auto& named : d.named)
        text += mask_text(named.first, " # named by you; no step paints it by itself yet");
    return text;
}

double sheet_cm2(const Draft& d) { return d.width_mm * d.height_mm / 100; }

/// mL of the mix that the wash lays.
double laid_mL(const Draft& d, const DraftPass& p) { return p.share * sheet_cm2(d) * p.film_um * 1e-4; }

std::string clock(double minutes) { return grid::clock_text(60 * minutes); }

/// What the rehearsal of the draft saw of the wash.
std::string times_text(const DraftPass& p) {
    if (!p.times || !std::isfinite(p.times->from_min))
        return "";
    std::string text = fmt::format("# rehearsed: begun at {}", clock(p.times->from_min));
    const std::pair<double, const char*> stages[] = {
        {p.times->moist_min, "its mirror sheen gone at"}, {p.times->damp_min, "no film left at"}, {p.times->dry_min, "dry at"}};
    for (const auto& [minute, what] : stages)
        if (std::isfinite(minute))
            text += fmt::format(", {} {}", what, clock(minute));
    return text + "\n";
}

std::string wash_text(const Draft& d, const DraftPass& p, const DraftPass* before) {
    std::string text = fmt::format("\n{}[[step]]\n", times_text(p));
    text += fmt::format("name = \"{}\"\ndo = \"wash\"\n", p.name);
    if (p.into_wet)
        text += "after = \"wet the paper\"\nwait = \"1:00\"\n";
    else if (!before)
        text += "at = \"0:00\"\n";
    else if (p.into_moist)
        text += fmt::format("when = {{ area = \"{}\", is = \"moist\", longest = \"60:00\" }} # its edge is {} in the picture, {:.0f} mm: so into moist paper\n",
                            area_name(*before), p.edge, p.edge_mm);
    else
        text += fmt::format("after = \"dry the {}\"\nwait = \"1:00\"\n", before->name);
    text += fmt::format("area = \"{0}\"\nmix = \"{0}\"\nfilm_um = {1:.0f} # {2:.1f} mL\npace_cm2_s = {3:g}\n", area_name(p), p.film_um,
                        laid_mL(d, p), pace_cm2_s(p));
    if (p.too_long)
        text += fmt::format("# an edge of it waits {:.0f} s for the hand, longer than any film joins: paint it in parts, or be quicker\n", p.left_s);
    if (p.start)
        text += fmt::format("from = [{:.0f}, {:.0f}]              # mm: an end of the shape; the hand goes through it from there\n",
                            p.start->x_mm, p.start->y_mm);
    else
        text += "travel = \"rows\"\n";
    if (p.soft)
        text += fmt::format("\n# Soft in the picture, {0:.0f} mm: a clean damp brush along it while it is wet.\n[[step]]\nname = \"soften {1}\"\n"
                            "do = \"soften\"\narea = \"{2}\"\nalong = \"{3}\"\nwidth_mm = {0:.0f}\n",
                            p.soft->width_mm, p.name, area_name(p), soft_area_name(p));
    return text;
}

/// A third more than it took in the rehearsal, to whole five minutes; three hours before one.
double longest_min(double from_min, double until_min) {
    const double took = until_min - from_min;
    return std::isfinite(took) && took > 0 ? 5 * std::ceil(took * 4 / 3 / 5) : 180;
}

// Warm air pushes a wet film about, so the sheen goes first: a soaked sheet keeps it half an hour or more.
std::string dry_text(const DraftPass& p) {
    const double damp = p.times ? longest_min(p.times->from_min, p.times->damp_min) : 180;
    return fmt::format("\n[[step]]\nname = \"dry the {}\"\ndo = \"dry\"\nwhen = {{ area = \"{}\", is = \"damp\", longest = \"{:.0f}:00\" }} "
                       "# let the sheen go before warm air comes near\nuntil = \"dry\"\nlongest = \"180:00\"\nwarm_air = true\n",
                       p.name, area_name(p), damp);
}

std::string steps_text(const Draft& d) {
    std::string text;
    const DraftPass* before = nullptr;
    for (std::size_t k = 0; k < d.passes.size(); ++k) {
        const DraftPass& p = d.passes[k];
        if (p.into_wet)
            text += fmt::format("\n# Both faces, only where the first wash goes: what is saved stays dry and keeps its edge. {:.1f} mL a face.\n"
                                "[[step]]\nname = \"wet the paper\"\ndo = \"wet\"\nat = \"0:00\"\nside = \"both\"\nwater_g_m2 = {:.0f}\narea = \"{}\"\n",
                                0.5e-4 * d.wet_g_m2 * p.share * sheet_cm2(d), d.wet_g_m2, area_name(p));
        text += wash_text(d, p, before);
        if (k + 1 == d.passes.size() || !d.passes[k + 1].into_moist)
            text += dry_text(p);
        before = &p;
    }
    if (d.small_lights)
        text += fmt::format("\n# Lights too small to paint round: {}.\n[[step]]\nname = \"small lights\"\ndo = \"body\"\n"
                            "area = \"{}\"\nmix = \"body-white\"\npaint_g_m2 = 70\npace_cm2_s = 0.5\n",
                            d.small_light_count, small_lights_name);
    return text;
}

/// What the picture's own edges are.
std::string wants_text(const Draft& d) {
    std::string text, before;
    for (const DraftPass& p : d.passes) {
        if (!p.edge.empty() && !before.empty())
            text += fmt::format("[[want]] # {:.1f} mm wide in the picture\nbetween = [\"{}\", \"{}\"]\nedge = \"{}\"\n", p.edge_mm,
                                area_name(p), before, p.edge);
        before = area_name(p);
    }
    if (text.empty())
        return text;
    return fmt::format("\n# The edges of the picture, by how wide each change of value is there; change them to what you hope for: hard,\n"
           "# firm, soft or lost.\n{}", text);
}

} // namespace

std::string area_name(const DraftPass& pass) {
    std::string name = pass.name;
    std::replace(name.begin(), name.end(), ' ', '-');
    return name;
}

double pace_cm2_s(const DraftPass& pass) { return pass.into_wet ? wet_wash_pace_cm2_s : wash_pace_cm2_s; }

std::string soft_area_name(const DraftPass& pass) { return "soft-beside-" + area_name(pass); }

std::string plan_text(const Draft& d) {
    std::string text = opening(d);
    for (const DraftPass& p : d.passes)
        text += mix_text(p);
    if (d.small_lights)
        text += "\n# body colour\n[mix.body-white]\nPW6 = 30\n";
    return text + areas_text(d) + steps_text(d) + wants_text(d);
}

} // namespace tidemark::reference
