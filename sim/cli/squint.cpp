#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <optional>
#include <set>

#include "cli/commands.h"
#include "cli/masses_options.h"
#include "cli/open_patch.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "materials/presets.h"
#include "reference/lights_to_save.h"
#include "report/squint_pictures.h"

namespace tidemark::cli {
namespace {

const char* const fine_stain = "PB15:3"; // shows a lap soonest

void say_masses(const reference::Masses& m, int groups, std::optional<std::size_t> crumbs) {
    std::vector<int> count(groups, 0);
    for (const reference::Mass& mass : m.list) ++count[mass.group];
    std::string text;
    for (int k = groups - 1; k >= 0; --k)
        text += fmt::format("{}{} of {}", text.empty() ? "" : ", ", count[k], reference::group_word(k, groups));
    fmt::print("{} {}: {}.", m.list.size(), m.list.size() == 1 ? "mass" : "masses", text);
    fmt::print("{}\n", crumbs ? fmt::format(" Crumbs that joined a neighbour: {}.", *crumbs) : "");
    if (m.list.size() == 1) fmt::print("There is one mass: nothing to part.\n");
}

void say_connected(const reference::Connected& c, const reference::Order& order, double open_s) {
    if (c.pieces.empty()) return;
    fmt::print("{:.0f} % of all that is not light hangs together", 100 * c.share);
    if (!c.bridges.empty()) {
        fmt::print("; {} would make it {:.0f} %:\n",
                   c.bridges.size() == 1 ? "a bridge" : fmt::format("{} bridges", c.bridges.size()), 100 * c.share_after);
        for (const reference::Bridge& b : c.bridges)
            fmt::print("  lose the edge at {:.0f}, {:.0f} mm: {:.1f} mm of light, {:.0f} L* lighter\n", b.way.front().x_mm,
                       b.way.front().y_mm, b.length_mm, b.contrast_lstar);
    } else {
        fmt::print(".\n");
    }
    fmt::print("Begin at {:.0f}, {:.0f} mm: {:.0f} cm2, {:.0f} mm to the farthest place, {} of painting.\n", order.start.x_mm,
               order.start.y_mm, order.area_mm2 / 100, order.length_mm, grid::clock_text(60 * order.minutes));
    int late = 0;
    for (const reference::Branch& b : order.branches)
        if (b.too_long) {
            ++late;
            fmt::print("  The edge at {:.0f}, {:.0f} mm is left for {}; laid on dry paper in this room it joins for {}.\n",
                       b.first.x_mm, b.first.y_mm, grid::clock_text(b.waited_s), grid::clock_text(open_s));
        }
    if (late == 0) fmt::print("No edge is left longer than it joins without a mark ({}).\n", grid::clock_text(open_s));
}

void say_lights(const std::vector<reference::Light>& lights) {
    int round = 0, reserve = 0, lift = 0;
    for (const reference::Light& l : lights)
        ++(l.keep == reference::Keep::round ? round : l.keep == reference::Keep::reserve ? reserve : lift);
    if (!lights.empty())
        fmt::print("Lights: {} to paint round, {} to reserve or set in body colour, {} to lift.\n", round, reserve, lift);
}

/// Masks of an earlier squint into other groups, which would no longer add to white.
void forget_other_masks(const std::filesystem::path& folder, int groups) {
    std::set<std::string> stay;
    for (int k = 0; k < groups; ++k) stay.insert(reference::group_word(k, groups));
    for (int count = reference::min_groups; count <= reference::max_groups; ++count) {
        std::error_code left;
        if (count != groups) std::filesystem::remove(folder / reference::made_from_name(count), left);
        for (int k = 0; k < count; ++k) {
            const std::string word = reference::group_word(k, count);
            if (!stay.contains(word)) std::filesystem::remove(folder / (word + ".png"), left); // one that can't go is only one too many
        }
    }
}

double open_s_in(const SquintOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    return rehearsal::open_time(open_patch(presets, o.paper, o.room, fine_stain, "--")).joins_s;
}

} // namespace

bool squint_at(const SquintOptions& o) {
    keep_picture(o.picture, o.out, {"value-map.png", "groups.png", "masses.png", "connected.png"});
    const std::filesystem::path folder = o.out;
    const bool their_own = !o.masses.masks.empty() && same_file(reference::masks_folder(o.masses.masks), folder / "masks"); // the painter's stay as they are
    std::error_code unreadable; // then the folder can't be written either, and says so itself
    if (std::filesystem::exists(folder / "plan.toml", unreadable))
        throw grid::BadInput("--out", "\"" + o.out + "\" holds a plan: masks of it would be written over", "another folder");
    if (!their_own && !o.replace && reference::masks_changed(folder / "masks"))
        throw grid::BadInput("--out", "the masks in \"" + o.out + "\" are not as squint wrote them", "--masks to take them, another folder, or --replace to write over them");
    looking(o.masses); // what is wrong with options is said before the picture is read
    if (!(o.pace_cm2_s >= 0.5 && o.pace_cm2_s <= 100)) refuse("--pace", fmt::format("{:g}", o.pace_cm2_s), "0.5 to 100 cm2 a second");
    std::optional<reference::Place> start;
    if (!o.start.empty()) {
        const auto at = numbers(o.start, ",");
        if (!at) refuse("--start", o.start, "x,y in mm from the top left corner of the sheet");
        start = reference::Place{(*at)[0], (*at)[1]};
    }
    const Found found = found_in(o.picture, o.masses);
    const double open_s = open_s_in(o);
    const reference::PictureMasses& seen = found.seen;
    const reference::Groups& g = seen.groups;
    const double pixels_per_mm = seen.pixels_per_mm;
    if (start && !(start->x_mm >= 0 && start->y_mm >= 0 && start->x_mm <= seen.sheet.width_mm && start->y_mm <= seen.sheet.height_mm))
        refuse("--start", o.start, fmt::format("a place on the sheet, up to {:g},{:g} mm", seen.sheet.width_mm, seen.sheet.height_mm));

    const reference::Connected shape = connected_shape(seen.masses, pixels_per_mm, {.light_from = g.count - 1});
    const reference::Order order =
        painting_order(seen.masses, shape, pixels_per_mm, {.start = start, .pace_cm2_s = o.pace_cm2_s, .open_s = open_s});
    auto lights = lights_to_save(seen.masses, fine_masses(seen, found.how.squint), seen.map, pixels_per_mm,
                                 {.light_from = g.count - 1});
    if (seen.masses.list.size() == 1) lights.clear(); // nothing is round it

    grid::OutputFolder out(o.out);
    const double per_m = 1000 * pixels_per_mm;
    out.write("value-map.png", grid::png_bytes(report::value_map_picture(seen.map), per_m));
    out.write("groups.png", grid::png_bytes(report::groups_picture(g), per_m));
    out.write("masses.png", grid::png_bytes(report::masses_picture(seen.masses, seen.names, pixels_per_mm), per_m));
    out.write("connected.png",
              grid::png_bytes(report::connected_picture(seen.masses, shape, order, pixels_per_mm), per_m));
    if (!their_own) {
        const auto masks = group_masks(g);
        for (int k = 0; k < g.count; ++k)
            out.write("masks/" + reference::group_word(k, g.count) + ".png", grid::png_bytes(masks[k]));
        out.write("masks/" + reference::made_from_name(g.count), grid::png_bytes(reference::made_from(g)));
    }
    out.write("masses.csv", report::masses_table(seen.masses, seen.names, g.count, pixels_per_mm));
    out.write("borders.csv", report::borders_table(seen.masses, pixels_per_mm));
    out.write("lights.csv", report::lights_table(lights));
    out.write("branches.csv", report::branches_table(order));
    out.commit();
    if (!their_own) forget_other_masks(out.folder() / "masks", g.count);

    say_found(o.picture, found);
    say_masses(seen.masses, g.count, o.masses.masks.empty() ? std::optional(seen.squinted.joined.size()) : std::nullopt);
    say_connected(shape, order, open_s);
    say_lights(lights);
    fmt::print("Look at {}\n", (out.folder() / "masses.png").string());
    return true;
}

} // namespace tidemark::cli
