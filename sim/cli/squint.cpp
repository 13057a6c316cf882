#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "cli/commands.h"
#include "cli/sheet_options.h"
#include "grid/csv.h"
#include "grid/files.h"
#include "grid/problem.h"
#include "materials/presets.h"
#include "reference/edits.h"
#include "reference/masks.h"
#include "reference/squint.h"
#include "rehearsal/open_time.h"
#include "report/squint_pictures.h"

namespace tidemark::cli {
namespace {

constexpr double most_pixels_per_mm = 4, most_pixels = 4e6, step_mm = 0.5;
constexpr double usual_side_mm = 280;
const char* const fine_stain = "PB15:3"; // shows a lap soonest

/// "3+9" into what stands before and after the first `mark`.
std::pair<std::string, std::string> halves(const std::string& option, const std::string& text, char mark, const char* allowed) {
    const std::size_t at = text.find(mark);
    if (at == std::string::npos || at == 0 || at + 1 == text.size()) refuse(option, text, allowed);
    return {text.substr(0, at), text.substr(at + 1)};
}

reference::Edit edit_from(const std::string& option, const std::string& text) {
    const std::string shown = option + " " + text;
    if (option == "--merge") {
        const auto [a, b] = halves(option, text, '+', "two masses, such as 3+9");
        return {reference::MergeMasses{a, b}, shown};
    }
    if (option == "--name") {
        const auto [mass, name] = halves(option, text, '=', "a mass and its name, such as 3=shed");
        return {reference::NameMass{mass, name}, shown};
    }
    if (option == "--push") {
        const char* const allowed = "a mass and how many groups lighter (+) or darker (-), such as 3:+1";
        const auto [mass, by] = halves(option, text, ':', allowed);
        const auto number = numbers(by.front() == '+' ? by.substr(1) : by, "");
        if (!number || (*number)[0] != std::floor((*number)[0]) || std::fabs((*number)[0]) > 7) refuse(option, text, allowed);
        return {reference::PushMass{mass, static_cast<int>((*number)[0])}, shown};
    }
    const char* const allowed = "a mass and two points in mm, such as 3:10,40-90,60";
    const auto [mass, line] = halves(option, text, ':', allowed);
    const auto n = numbers(line, ",-,");
    if (!n || std::any_of(n->begin(), n->end(), [](double mm) { return std::fabs(mm) > 1e4; })) refuse(option, text, allowed);
    return {reference::SplitMass{mass, (*n)[0], (*n)[1], (*n)[2], (*n)[3]}, shown};
}

std::vector<float> thresholds_from(const std::string& text) {
    const char* const allowed = "one to six rising values between 0 and 100, such as 35,65";
    const auto count = std::count(text.begin(), text.end(), ',');
    const auto n = numbers(text, std::string(static_cast<std::size_t>(count), ','));
    if (!n || n->size() > reference::max_groups - 1) refuse("--thresholds", text, allowed);
    for (std::size_t k = 0; k < n->size(); ++k)
        if (!((*n)[k] > 0 && (*n)[k] < 100 && (k == 0 || (*n)[k] > (*n)[k - 1]))) refuse("--thresholds", text, allowed);
    return {n->begin(), n->end()};
}

reference::Squint how_from(const SquintOptions& o) {
    reference::Squint how{.crumb_mm2 = o.smallest_mm2, .simplify_mm = step_mm * o.simplify, .keep_thin = o.keep_thin};
    if (!o.thresholds.empty()) how.thresholds = thresholds_from(o.thresholds);
    for (const std::string& text : o.keep_lights) {
        const auto at = numbers(text, ",");
        if (!at) refuse("--keep-light", text, "x,y in mm from the top left corner of the sheet");
        how.keep.push_back({(*at)[0], (*at)[1]});
    }
    return how;
}

/// The part of the picture that the sheet holds, and the sheet.
struct Taken {
    grid::Picture picture;
    Sheet sheet;
    double pixels_per_mm = 4; ///< of masks and all that is measured
};

/// A large sheet is looked at no finer than a small one: nobody paints its masses to a quarter of a millimetre.
double pixels_per_mm_for(const Sheet& sheet) {
    return std::min(most_pixels_per_mm, std::sqrt(most_pixels / (sheet.width_mm * sheet.height_mm)));
}

Taken taken(const SquintOptions& o) {
    Sheet sheet;
    if (!o.sheet_mm.empty()) sheet = sheet_from(o.sheet_mm);
    reference::Crop crop;
    const auto choose = [&](int width, int height) { // a JPEG's size is known before it is read
        const double longest = std::max(width, height);
        if (o.sheet_mm.empty()) {
            sheet = {std::round(usual_side_mm * width / longest), std::round(usual_side_mm * height / longest)};
            if (std::min(sheet.width_mm, sheet.height_mm) < 30)
                throw grid::BadInput(o.picture, fmt::format("the picture is {} x {} pixels", width, height),
                                     "no side more than 9 times the other, or --sheet-mm");
        }
        crop = crop_from(o.crop, sheet, width, height);
        return sheet.width_mm * pixels_per_mm_for(sheet) / crop.width;
    };
    const grid::Photograph photograph = grid::read_photograph(o.picture, {}, {}, choose);
    choose(photograph.full_width, photograph.full_height);
    if (!photograph.note.empty()) fmt::print(stderr, "{}: {}\n", o.picture, photograph.note);
    const reference::FallsAway away =
        reference::falls_away(crop, photograph.full_width, photograph.full_height, sheet.width_mm);
    if (away.share > 0.005) fmt::print("{:.0f} % of the picture does not come onto the sheet.\n", 100 * away.share);
    return {reference::cut_out(photograph.picture, crop, photograph.full_width, photograph.full_height), sheet,
            pixels_per_mm_for(sheet)};
}

void say_masses(const reference::SquintResult& s, const reference::Masses& m, int groups) {
    std::vector<int> count(groups, 0);
    for (const reference::Mass& mass : m.list) ++count[mass.group];
    std::string text;
    for (int k = groups - 1; k >= 0; --k)
        text += fmt::format("{}{} of {}", text.empty() ? "" : ", ", count[k], report::group_word(k, groups));
    fmt::print("{} {}: {}. Crumbs that joined a neighbour: {}.\n", m.list.size(), m.list.size() == 1 ? "mass" : "masses", text,
               s.joined.size());
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
    for (int k = 0; k < groups; ++k) stay.insert(report::group_word(k, groups));
    for (int count = reference::min_groups; count <= reference::max_groups; ++count)
        for (int k = 0; k < count; ++k) {
            const std::string word = report::group_word(k, count);
            std::error_code left; // one that can't go is only one too many
            if (!stay.contains(word)) std::filesystem::remove(folder / (word + ".png"), left);
        }
}

double open_s_in(const SquintOptions& o) {
    const auto presets = materials::Presets::read(grid::presets_folder());
    rehearsal::OpenPatch patch;
    const auto find = [](const char* option, const auto* found, const std::string& id) -> const auto& {
        if (!found) refuse(option, id, "an id of the presets, as the README lists them");
        return *found;
    };
    patch.paper = find("--paper", presets.paper(o.paper), o.paper);
    patch.room = find("--room", presets.room(o.room), o.room);
    patch.pigment = find("presets", presets.pigment(fine_stain), fine_stain);
    return rehearsal::open_time(patch).joins_s;
}

} // namespace

bool squint_at(const SquintOptions& o) {
    keep_picture(o.picture, o.out, {"value-map.png", "groups.png", "masses.png", "connected.png"});
    std::vector<reference::Edit> edits;
    for (const auto& [option, text] : o.edits) edits.push_back(edit_from(option, text));
    if (o.groups < reference::min_groups || o.groups > reference::max_groups)
        refuse("--groups", std::to_string(o.groups), fmt::format("{} to {}", reference::min_groups, reference::max_groups));
    if (o.groups_given && !o.thresholds.empty())
        throw grid::BadInput("--groups", "the cuts of --thresholds say how many values there are", "one of the two");
    if (o.simplify < 1 || o.simplify > 10) refuse("--simplify", std::to_string(o.simplify), "1 to 10");
    if (!(o.smallest_mm2 >= 0 && o.smallest_mm2 <= 1e5)) refuse("--smallest", fmt::format("{:g}", o.smallest_mm2), "0 to 100000 mm2");
    if (!(o.pace_cm2_s >= 0.5 && o.pace_cm2_s <= 100)) refuse("--pace", fmt::format("{:g}", o.pace_cm2_s), "0.5 to 100 cm2 a second");
    const reference::Squint how = how_from(o);
    const int groups = how.thresholds.empty() ? o.groups : static_cast<int>(how.thresholds.size()) + 1;
    std::optional<reference::Place> start;
    if (!o.start.empty()) {
        const auto at = numbers(o.start, ",");
        if (!at) refuse("--start", o.start, "x,y in mm from the top left corner of the sheet");
        start = reference::Place{(*at)[0], (*at)[1]};
    }
    const double open_s = open_s_in(o);
    const Taken t = taken(o);
    const double pixels_per_mm = t.pixels_per_mm;
    if (start && !(start->x_mm >= 0 && start->y_mm >= 0 && start->x_mm <= t.sheet.width_mm && start->y_mm <= t.sheet.height_mm))
        refuse("--start", o.start, fmt::format("a place on the sheet, up to {:g},{:g} mm", t.sheet.width_mm, t.sheet.height_mm));
    const reference::ValueMap map =
        resized(reference::value_map(t.picture), std::max(1, static_cast<int>(std::lround(t.sheet.width_mm * pixels_per_mm))),
                std::max(1, static_cast<int>(std::lround(t.sheet.height_mm * pixels_per_mm))));
    const reference::SquintResult s = squint(map, pixels_per_mm, groups, how);
    const reference::EditedMasses e = edited(s.masses, map, s.groups.count, pixels_per_mm, edits);
    const reference::Groups g = groups_of(e.masses, map, s.groups);

    const reference::Connected shape = connected_shape(e.masses, pixels_per_mm, {.light_from = g.count - 1});
    const reference::Order order =
        painting_order(e.masses, shape, pixels_per_mm, {.start = start, .pace_cm2_s = o.pace_cm2_s, .open_s = open_s});
    const reference::Masses fine =
        find_masses(group_with(blurred(map, how.blur_mm * pixels_per_mm), s.groups.thresholds), map);
    auto lights = lights_to_save(e.masses, fine, map, pixels_per_mm, {.light_from = g.count - 1});
    if (e.masses.list.size() == 1) lights.clear(); // nothing is round it

    grid::OutputFolder out(o.out);
    const double per_m = 1000 * pixels_per_mm;
    out.write("value-map.png", grid::png_bytes(report::value_map_picture(map), per_m));
    out.write("groups.png", grid::png_bytes(report::groups_picture(g), per_m));
    out.write("masses.png", grid::png_bytes(report::masses_picture(e.masses, e.names), per_m));
    out.write("connected.png",
              grid::png_bytes(report::connected_picture(e.masses, shape, order, pixels_per_mm, o.pace_cm2_s), per_m));
    const auto masks = group_masks(g);
    for (int k = 0; k < g.count; ++k)
        out.write("masks/" + report::group_word(k, g.count) + ".png", grid::png_bytes(masks[k]));
    out.write("masses.csv", report::masses_table(e.masses, e.names, g.count, pixels_per_mm));
    out.write("borders.csv", report::borders_table(e.masses, pixels_per_mm));
    out.write("lights.csv", report::lights_table(lights));
    out.write("branches.csv", report::branches_table(order));
    out.commit();
    forget_other_masks(out.folder() / "masks", g.count);

    say_masses(s, e.masses, g.count);
    say_connected(shape, order, open_s);
    say_lights(lights);
    fmt::print("Look at {}\n", (out.folder() / "masses.png").string());
    return true;
}

} // namespace tidemark::cli
