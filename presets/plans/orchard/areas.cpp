#include "draw.h"
#include "scene.h"

#include <initializer_list>

namespace orchard {
namespace {

bool is(const Seen& s, std::initializer_list<Part> parts) {
    return std::find(parts.begin(), parts.end(), s.part) != parts.end();
}
bool ground(const Seen& s) { return is(s, {Part::path, Part::grass}); }
bool saved_white(const Seen& s) { return s.glint || is(s, {Part::hive_lit, Part::hive_top, Part::clothes_lit}); }
bool dry_light(const Seen& s) {
    return saved_white(s) || is(s, {Part::sky, Part::far_trees, Part::shed_roof, Part::shed_lit}) ||
           (ground(s) && !s.shade);
}

constexpr Area list[] = {
    {"lights", [](const Seen& s) { return !saved_white(s); }},
    {"sky", [](const Seen& s) { return is(s, {Part::sky}); }},
    {"sky-warm", [](const Seen& s) { return is(s, {Part::sky}) && s.colour.r - s.colour.b > 12; }},
    {"far-trees", [](const Seen& s) { return is(s, {Part::far_trees}); }},
    {"shed",
     [](const Seen& s) {
         return is(s, {Part::shed_roof, Part::shed_lit, Part::shed_side, Part::shed_dark});
     }},
    {"shed-side", [](const Seen& s) { return is(s, {Part::shed_side}); }},
    {"shed-dark", [](const Seen& s) { return is(s, {Part::shed_dark}); }},
    {"wall", [](const Seen& s) { return is(s, {Part::wall}); }},
    {"gate-gap",
     [](const Seen& s) {
         return is(s, {Part::gate_gap, Part::gate});
     }},
    {"hives",
     [](const Seen& s) {
         return is(s, {Part::hive_lit, Part::hive_shade, Part::hive_top});
     }},
    {"hive-shade", [](const Seen& s) { return is(s, {Part::hive_shade}); }},
    {"hive-tops", [](const Seen& s) { return is(s, {Part::hive_top}); }},
    {"path", [](const Seen& s) { return is(s, {Part::path}); }},
    {"grass-light", [](const Seen& s) { return is(s, {Part::grass}) && !s.shade; }},
    {"midtones", [](const Seen& s) { return !dry_light(s); }, true},
    {"orchard-trees",
     [](const Seen& s) {
         return is(s, {Part::leaves, Part::trunk});
     }},
    {"leaves-dark", [](const Seen& s) { return is(s, {Part::leaves}) && s.colour.g < 72; }},
    {"trunks", [](const Seen& s) { return is(s, {Part::trunk}); }},
    {"pickers",
     [](const Seen& s) {
         return is(s, {Part::head, Part::clothes_lit, Part::clothes_shade});
     }},
    {"picker-heads", [](const Seen& s) { return is(s, {Part::head}); }},
    {"picker-clothes-shade", [](const Seen& s) { return is(s, {Part::clothes_shade}); }},
    {"cart",
     [](const Seen& s) {
         return is(s, {Part::cart_body, Part::cart_accent, Part::cart_dark});
     }},
    {"cart-accent", [](const Seen& s) { return is(s, {Part::cart_accent}); }},
    {"cart-dark", [](const Seen& s) { return is(s, {Part::cart_dark}); }},
    {"foreground-shadow", [](const Seen& s) { return ground(s) && s.foreground; }},
    {"details", [](const Seen& s) { return s.mark; }},
    {"highlights", [](const Seen& s) { return s.glint; }},
};

} // namespace

std::span<const Area> areas() { return list; }

} // namespace orchard
