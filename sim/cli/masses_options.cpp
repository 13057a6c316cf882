#include "cli/masses_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>

#include "cli/command_line.h"
#include "grid/problem.h"

namespace tidemark::cli {
namespace {

constexpr double step_mm = 0.5, longest_line_mm = 1e4;
constexpr std::size_t most_listed = 8;

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
        if (!number || (*number)[0] != std::floor((*number)[0]) || std::fabs((*number)[0]) > reference::max_groups) refuse(option, text, allowed);
        return {reference::PushMass{mass, static_cast<int>((*number)[0])}, shown};
    }
    const char* const allowed = "a mass and two points in mm, up to 10000, such as 3:10,40-90,60";
    const auto [mass, line] = halves(option, text, ':', allowed);
    const auto n = numbers(line, ",-,");
    if (!n || std::any_of(n->begin(), n->end(), [](double mm) { return std::fabs(mm) > longest_line_mm; })) refuse(option, text, allowed);
    return {reference::SplitMass{mass, (*n)[0], (*n)[1], (*n)[2], (*n)[3]}, shown};
}

std::vector<float> thresholds_from(const std::string& text) {
    const char* const allowed = "one to six cuts between 0 and 100, each at least 0.1 above the one before, such as 35,65";
    const auto count = std::count(text.begin(), text.end(), ',');
    const auto n = numbers(text, std::string(static_cast<std::size_t>(count), ','));
    if (!n || n->size() > reference::max_groups - 1) refuse("--thresholds", text, allowed);
    for (std::size_t k = 0; k < n->size(); ++k)
        if (!((*n)[k] > 0 && (*n)[k] < 100 && (k == 0 || (*n)[k] >= (*n)[k - 1] + 0.0999))) refuse("--thresholds", text, allowed);
    return {n->begin(), n->end()};
}

/// What squinting would do and masks have done already.
void refuse_beside_masks(const MassesOptions& o) {
    const std::pair<bool, const char*> others[] = {{!o.thresholds.empty(), "--thresholds"}, {o.smallest_given, "--smallest"}, {o.simplify_given, "--simplify"}, {o.keep_thin, "--keep-thin"}, {!o.keep_lights.empty(), "--keep-light"}};
    for (const auto& [given, name] : others)
        if (given) throw grid::BadInput(name, "the masks of --masks say what is of which group", "one of the two");
}

} // namespace

void add_masses_options(CLI::App& command, MassesOptions& o, bool sheet_must) {
    CLI::Option* groups =
        command.add_option("--groups", o.groups, "groups of values, 2 to 7")->capture_default_str()->check(a_whole_number("2 to 7"));
    groups->each([&o](const std::string&) { o.groups_given = true; });
    command.add_option("--thresholds", o.thresholds, "cuts between groups set by hand, L*, such as 35,65")->check(not_empty("rising cuts"));
    command.add_option("--simplify", o.simplify, "what is narrower goes, in steps of half a mm on the sheet")
        ->capture_default_str()
        ->check(a_whole_number("1 to 10"))
        ->each([&o](const std::string&) { o.simplify_given = true; });
    command.add_option("--smallest", o.smallest_mm2, "smaller masses join a neighbour, mm2")
        ->capture_default_str()
        ->check(a_number("0 to 100000"))
        ->each([&o](const std::string&) { o.smallest_given = true; });
    command.add_flag("--keep-thin", o.keep_thin, "a rope or a post stays, though it is narrow");
    command.add_option("--keep-light", o.keep_lights, "a light that stays, however small, X,Y in mm; once for each")
        ->allow_extra_args(false)
        ->check(not_empty("x,y in mm"));
    command.add_option("--masks", o.masks, "folder with squint's masks, as you have changed them: they are taken as they are")
        ->check(not_empty("a folder's name"));
    CLI::Option* sheet = command.add_option("--sheet-mm", o.sheet_mm, sheet_must ? "the sheet, width x height in mm, such as 380x280"
                                                 : "the sheet, width x height in mm (default: 280 along the longer side)")
        ->check(not_empty("width x height, such as 380x280"));
    if (sheet_must) sheet->required();
    command.add_option("--crop", o.crop, "part of the picture, X,Y,WxH in its pixels (default: the middle)")
        ->check(not_empty("left, top, width x height in pixels"));
    for (const auto& [name, what] : {std::pair{"--merge", "two masses that touch become one, A+B"},
                                     {"--push", "a mass goes a group lighter or darker, A:+1"},
                                     {"--name", "a mass gets a name, A=shed"},
                                     {"--split", "a mass is split along a line, A:X,Y-X,Y in mm"}})
        command.add_option_function<std::vector<std::string>>(name, [](const std::vector<std::string>&) {}, what)
            ->trigger_on_parse()
            ->allow_extra_args(false)
            ->each([&o, option = std::string(name)](const std::string& text) { o.edits.emplace_back(option, text); })
            ->check(not_empty("a mass, by its number or name"));
}

reference::Looking looking(const MassesOptions& o) {
    reference::Looking how;
    for (const auto& [option, text] : o.edits) how.edits.push_back(edit_from(option, text));
    if (o.groups < reference::min_groups || o.groups > reference::max_groups)
        refuse("--groups", std::to_string(o.groups), fmt::format("{} to {}", reference::min_groups, reference::max_groups));
    if (!o.masks.empty()) refuse_beside_masks(o);
    if (o.groups_given && !o.thresholds.empty())
        throw grid::BadInput("--groups", "the cuts of --thresholds say how many groups there are", "one of the two");
    if (o.simplify < 1 || o.simplify > 10) refuse("--simplify", std::to_string(o.simplify), "1 to 10");
    if (!(o.smallest_mm2 >= 0 && o.smallest_mm2 <= 1e5)) refuse("--smallest", fmt::format("{:g}", o.smallest_mm2), "0 to 100000 mm2");
    how.squint.crumb_mm2 = o.smallest_mm2, how.squint.simplify_mm = step_mm * o.simplify, how.squint.keep_thin = o.keep_thin;
    if (!o.thresholds.empty()) how.squint.thresholds = thresholds_from(o.thresholds);
    for (const std::string& text : o.keep_lights) {
        const auto at = numbers(text, ",");
        if (!at) refuse("--keep-light", text, "x,y in mm from the top left corner of the sheet");
        how.squint.keep.push_back({(*at)[0], (*at)[1]});
    }
    how.groups = how.squint.thresholds.empty() ? o.groups : static_cast<int>(how.squint.thresholds.size()) + 1;
    if (!o.sheet_mm.empty()) how.sheet = sheet_from(o.sheet_mm);
    return how;
}

Found found_in(const std::string& file, const MassesOptions& o) {
    Found found;
    found.how = looking(o);
    reference::SheetSize& sheet = found.how.sheet;
    reference::Crop crop;
    const auto choose = [&](int width, int height) { // a JPEG's size is known before it is read
        if (o.sheet_mm.empty()) {
            const reference::Crop part = crop_from(o.crop, {}, width, height);
            sheet = reference::sheet_for(part.width, part.height, file);
        }
        crop = crop_from(o.crop, o.sheet_mm.empty() ? reference::SheetSize{} : sheet, width, height);
        return sheet.width_mm * reference::looked_at_pixels_per_mm(sheet) / crop.width;
    };
    const grid::Photograph photograph = grid::read_photograph(file, {}, {}, choose);
    choose(photograph.full_width, photograph.full_height);
    found.note = photograph.note;
    if (!o.masks.empty())
        found.how.masks = reference::read_group_masks(reference::masks_folder(o.masks), o.groups_given ? o.groups : 0, sheet.width_mm, sheet.height_mm);
    if (!found.how.masks.empty()) found.how.made_from = reference::read_made_from(reference::masks_folder(o.masks), static_cast<int>(found.how.masks.size()));
    found.away = reference::falls_away(crop, photograph.full_width, photograph.full_height, sheet.width_mm);
    found.picture = reference::cut_out(photograph.picture, crop, photograph.full_width, photograph.full_height);
    found.seen = reference::masses_in(found.picture, found.how);
    return found;
}

namespace {

std::string listed(const std::vector<int>& numbers) {
    std::string text;
    for (std::size_t k = 0; k < numbers.size() && k < most_listed; ++k) text += fmt::format("{}{}", k ? ", " : "", numbers[k]);
    return numbers.size() > most_listed ? fmt::format("{} and {} more", text, numbers.size() - most_listed) : text;
}

void say_renumbered(const reference::Renumbered& r) {
    if (!r.made.empty()) fmt::print("{} made {}.\n", r.edit, listed(r.made));
    if (!r.gone.empty()) fmt::print("{} joined {} to {}: {} is its number now.\n", r.edit, listed(r.gone), r.stays, r.stays);
}

/// Of masks; they may be of another picture.
void say_if_not_rising(const std::vector<float>& means) {
    if (reference::rising(means)) return;
    std::string text;
    for (std::size_t k = 0; k < means.size(); ++k)
        if (std::isfinite(means[k]))
            text += fmt::format("{}{} L* {:.0f}", text.empty() ? "" : ", ", reference::group_word(static_cast<int>(k), static_cast<int>(means.size())), means[k]);
    fmt::print("Are these the masks of this picture? Over it they don't rise in lightness by {:g} L* from each group to the next: {}.\n", reference::least_rise_lstar, text);
}

} // namespace

void say_found(const std::string& picture, const Found& f) {
    if (!f.note.empty()) fmt::print(stderr, "{}: {}\n", picture, f.note);
    std::string sides;
    const std::pair<double, const char*> all[] = {
        {f.away.left_mm, "on the left"}, {f.away.right_mm, "on the right"}, {f.away.top_mm, "at the top"}, {f.away.bottom_mm, "at the foot"}};
    for (const auto& [mm, where] : all)
        if (mm >= 0.05) sides += fmt::format("{}{:.1f} mm {}", sides.empty() ? "" : ", ", mm, where);
    if (!sides.empty() && f.away.share > 0.005)
        fmt::print("Of the picture falls away: {}; {:.1f} percent of it\n", sides, 100 * f.away.share);
    for (const reference::Renumbered& r : f.seen.renumbered) say_renumbered(r);
    const double per_mm2 = f.seen.pixels_per_mm * f.seen.pixels_per_mm;
    say_if_not_rising(f.seen.means_by_masks);
    if (f.seen.unclaimed > 0)
        fmt::print("No mask covers {:.1f} mm2: they go to what lies nearest.\n", static_cast<double>(f.seen.unclaimed) / per_mm2);
    if (f.seen.claimed_twice > 0)
        fmt::print("Two masks cover {:.1f} mm2: what was added there counts.\n", static_cast<double>(f.seen.claimed_twice) / per_mm2);
}

} // namespace tidemark::cli
