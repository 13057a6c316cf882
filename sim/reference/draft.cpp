#include "reference/draft.h"

#include "colour/lab.h"
#include "grid/problem.h"
#include "reference/draft_text_detail.h"

#include <algorithm>
#include <cmath>

namespace tidemark::reference {

namespace {

constexpr int longest_mm = 280, shortest_mm = 30, mask_pixels_per_mm = 4;
constexpr float saved_lstar = 90;     // lighter than the palest wash worth mixing (0.15 g/m²) dries
constexpr double least_share = 0.001; // of the sheet; less than a thumbnail even on a square one
constexpr double least_load_g_m2 = 0.03;

/// Of the sheet for a picture of so many pixels: mm for one of its sides.
int side_mm(int pixels, int longest) {
    return static_cast<int>(std::lround(static_cast<double>(longest_mm) * pixels / longest));
}

void refuse_ribbon(int width, int height, const std::string& name) {
    if (side_mm(std::min(width, height), std::max(width, height)) < shortest_mm)
        throw grid::BadInput(name,
                             "the picture is " + std::to_string(width) + " x " + std::to_string(height) + " pixels",
                             "no side more than 9 times the other");
}

void choose_sheet(Draft& draft, const grid::Picture& picture, const std::string& name) {
    refuse_ribbon(picture.width, picture.height, name);
    const int longest = std::max(picture.width, picture.height);
    draft.width_mm = side_mm(picture.width, longest), draft.height_mm = side_mm(picture.height, longest);
    const int pixels_per_mm = std::clamp((longest + longest_mm - 1) / longest_mm, 1, 4);
    draft.reference = grid::resized(picture, draft.width_mm * pixels_per_mm, draft.height_mm * pixels_per_mm);
}

/// Paper to be saved: lit parts of the lightest group as light as paper, without crumbs.
std::vector<std::uint8_t> saved_lights(const SquintResult& squinted, const ValueMap& map, const Squint& how) {
    const float threshold[] = {saved_lstar};
    const double crumb = how.crumb_mm2 * mask_pixels_per_mm * mask_pixels_per_mm;
    const Masses m = merged(find_masses(group_with(squinted.seen, threshold), map), map, std::llround(crumb));
    std::vector<std::uint8_t> saved(m.of.size());
    for (std::size_t p = 0; p < saved.size(); ++p)
        saved[p] = m.list[m.of[p]].group == 1 && squinted.groups.group[p] == squinted.groups.count - 1;
    return saved;
}

/// Means over one group of what is to be painted.
struct Tone {
    double pixels = 0, lstar = 0, a = 0, b = 0;
};

std::vector<Tone> tones(const Draft& draft, const Groups& groups, const std::vector<std::uint8_t>& saved) {
    std::vector<Tone> all(groups.count);
    for (int y = 0; y < groups.height; ++y)
        for (int x = 0; x < groups.width; ++x) {
            const std::size_t p = static_cast<std::size_t>(y) * groups.width + x;
            if (saved[p])
                continue;
            const std::uint8_t* rgb = draft.reference.at(x * draft.reference.width / groups.width,
                                                         y * draft.reference.height / groups.height);
            const colour::Lab lab = colour::lab_from_srgb({rgb[0], rgb[1], rgb[2]});
            Tone& t = all[groups.group[p]];
            t.pixels += 1, t.lstar += lab.L, t.a += lab.a, t.b += lab.b;
        }
    for (Tone& t : all)
        if (t.pixels > 0)
            t.lstar /= t.pixels, t.a /= t.pixels, t.b /= t.pixels;
    return all;
}

std::string pass_name(int group, int count) {
    if (group == count - 1)
        return "first wash";
    if (group == 0)
        return "darks";
    return count == 3 ? "midtones and darks" : "value " + std::to_string(count - group) + " and darker";
}

/// Where a wash goes: its group and all that is darker, without the saved lights.
grid::GreyPicture mask_of(const Groups& groups, int lightest, const std::vector<std::uint8_t>& saved) {
    grid::GreyPicture mask{groups.width, groups.height, std::vector<float>(groups.group.size())};
    for (std::size_t p = 0; p < mask.value.size(); ++p)
        mask.value[p] = groups.group[p] <= lightest && !saved[p] ? 1.0f : 0.0f;
    return mask;
}

double share_of(const grid::GreyPicture& mask) {
    double sum = 0;
    for (const float v : mask.value)
        sum += v;
    return sum / static_cast<double>(mask.value.size());
}

/// Light to dark; `reached` is the value that the washes so far dry to, where the next one goes.
void plan_passes(Draft& draft, const Groups& groups, const std::vector<std::uint8_t>& saved) {
    const std::vector<Tone> tone = tones(draft, groups, saved);
    const auto sheet = static_cast<double>(groups.group.size());
    double reached = paper_lstar;
    for (int k = groups.count - 1; k >= 0; --k) {
        if (tone[k].pixels < least_share * sheet)
            continue;
        DraftPass pass;
        pass.mix = &mix_for(tone[k].a, tone[k].b);
        pass.wanted_lstar = tone[k].lstar;
        const double there = load_for(*pass.mix, reached);
        pass.load_g_m2 = load_for(*pass.mix, pass.wanted_lstar) - there;
        const bool last_chance = k == 0 && draft.passes.empty();
        if (pass.load_g_m2 < least_load_g_m2 && !last_chance)
            continue;
        pass.load_g_m2 = std::max(pass.load_g_m2, least_load_g_m2);
        pass.name = pass_name(k, groups.count);
        pass.mask = mask_of(groups, k, saved);
        pass.share = share_of(pass.mask);
        pass.into_wet = k == groups.count - 1;
        pass.film_um = pass.into_wet ? 120 : k == 0 ? 90 : 100;
        reached = pass.dries_to_lstar = lstar_at(*pass.mix, there + pass.load_g_m2);
        draft.passes.push_back(std::move(pass));
    }
}

} // namespace

Draft draft_plan(const grid::Picture& picture, const std::string& picture_name, const DraftOptions& options) {
    Draft draft;
    draft.groups = options.groups;
    choose_sheet(draft, picture, picture_name);
    const ValueMap map =
        resized(value_map(picture), draft.width_mm * mask_pixels_per_mm, draft.height_mm * mask_pixels_per_mm);
    const SquintResult squinted = squint(map, mask_pixels_per_mm, options.groups, options.squint);
    std::vector<std::uint8_t> saved = saved_lights(squinted, map, options.squint);
    double saved_pixels = 0;
    for (const std::uint8_t s : saved)
        saved_pixels += s;
    draft.saved_share = saved_pixels / static_cast<double>(saved.size());
    if (draft.saved_share >
        1 - least_share) { // a white picture: a breath of colour over all, so that there is a plan
        std::fill(saved.begin(), saved.end(), std::uint8_t{0});
        draft.saved_share = 0;
    }
    plan_passes(draft, squinted.groups, saved);
    draft.plan_toml = plan_text(draft, picture_name);
    return draft;
}

std::string write_draft(const std::filesystem::path& picture, grid::OutputFolder& out, const DraftOptions& options) {
    const std::string name = picture.filename().string();
    // Masks are the finest that is drawn; a ribbon is refused by its own pixels, not by those of a reduced one.
    const auto scale_needed = [&name](int width, int height) {
        refuse_ribbon(width, height, name);
        return static_cast<double>(longest_mm) * mask_pixels_per_mm / std::max(width, height);
    };
    const grid::Photograph photograph = grid::read_photograph(picture, {}, {}, scale_needed);
    const Draft draft = draft_plan(photograph.picture, name, options);
    const double pixels_per_m = 1000.0 * draft.reference.width / draft.width_mm;
    out.write("reference.png", grid::png_bytes(draft.reference, pixels_per_m));
    for (const DraftPass& pass : draft.passes)
        out.write("masks/" + area_name(pass) + ".png", grid::png_bytes(pass.mask));
    out.write("plan.toml", draft.plan_toml);
    return photograph.note;
}

} // namespace tidemark::reference
