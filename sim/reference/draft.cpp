#include "reference/draft.h"

#include "colour/lab.h"
#include "grid/problem.h"
#include "reference/draft_text_detail.h"
#include "reference/edge_width.h"
#include "reference/lights_to_save.h"
#include "reference/order.h"

#include <algorithm>
#include <cmath>
#include <utility>

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

constexpr double hard_below_mm = 1, firm_below_mm = 3, soft_below_mm = 10; // as judge/edges.h has them

/// How wide the change from what is lighter than group `darkest_light` to it and darker is in the picture, mm; NaN: untold.
double edge_width_mm(const Groups& groups, int darkest_light, const ValueMap& map) {
    Groups two = groups;
    two.count = 2;
    for (auto& g : two.group)
        g = g > darkest_light;
    const Masses m = find_masses(two, map);
    std::vector<int> lights;
    for (std::size_t k = 0; k < m.list.size(); ++k)
        if (m.list[k].group == 1)
            lights.push_back(static_cast<int>(k));
    const double reach = soft_below_mm * mask_pixels_per_mm;
    std::vector<std::pair<double, double>> widths; // and how much outline has them
    double all = 0;
    const std::vector<double> pixels = edge_widths(m, map, lights, std::vector<double>(lights.size(), 2 * reach), reach);
    for (std::size_t k = 0; k < lights.size(); ++k)
        if (std::isfinite(pixels[k])) {
            double outline = 0;
            for (const Border& b : m.list[lights[k]].neighbours)
                outline += static_cast<double>(b.length);
            widths.emplace_back(pixels[k] / mask_pixels_per_mm, outline), all += outline;
        }
    std::sort(widths.begin(), widths.end());
    double so_far = 0;
    for (const auto& [mm, outline] : widths)
        if ((so_far += outline) >= 0.5 * all)
            return mm;
    return std::nan("");
}

const char* edge_word(double mm) {
    return mm < hard_below_mm ? "hard" : mm < firm_below_mm ? "firm" : mm <= soft_below_mm ? "soft" : "lost";
}

/// Lights too small for a brush to be led round, where they stand out of what is to be painted darker.
void find_small_lights(Draft& draft, const SquintResult& squinted, const ValueMap& map, const Squint& how) {
    constexpr double least_contrast_L = 20; // of body colour over a wash, to be worth a touch
    const ValueMap softened = blurred(map, how.blur_mm * mask_pixels_per_mm);
    const Masses fine = find_masses(group_with(softened, squinted.groups.thresholds), map);
    std::vector<std::uint8_t> chosen(fine.list.size(), 0);
    const auto painted_lstar = [&](const Light& light) { // of the mass that is painted there
        const int x = std::clamp(static_cast<int>(light.at.x_mm * mask_pixels_per_mm), 0, map.width - 1);
        const int y = std::clamp(static_cast<int>(light.at.y_mm * mask_pixels_per_mm), 0, map.height - 1);
        return squinted.masses.list[squinted.masses.at(x, y)].mean_lstar;
    };
    for (const Light& light : lights_to_save(squinted.masses, fine, map, mask_pixels_per_mm, {.light_from = squinted.groups.count - 1}))
        if (light.keep == Keep::reserve && light.fine &&
            fine.list[light.mass].mean_lstar - painted_lstar(light) >= least_contrast_L)
            chosen[light.mass] = 1, ++draft.small_light_count;
    if (draft.small_light_count == 0)
        return;
    grid::GreyPicture mask{map.width, map.height, std::vector<float>(map.lstar.size())};
    for (std::size_t p = 0; p < mask.value.size(); ++p)
        mask.value[p] = chosen[fine.of[p]] ? 1.0f : 0.0f;
    draft.small_lights = std::move(mask);
}

/// Where the connected wash begins, and how long it takes.
void find_start(Draft& draft, const SquintResult& squinted) {
    const int lightest = squinted.groups.count - 1;
    const auto wash = std::find_if(draft.passes.begin(), draft.passes.end(),
                                   [&](const DraftPass& p) { return p.group == lightest - 1; });
    const Connected shape = connected_shape(squinted.masses, mask_pixels_per_mm, {.light_from = lightest});
    if (shape.pieces.empty() || wash == draft.passes.end())
        return;
    draft.hangs_together = shape.share;
    const Order order = painting_order(squinted.masses, shape, mask_pixels_per_mm, {.pace_cm2_s = wash_pace_cm2_s});
    draft.connected_minutes = order.minutes;
    wash->start = order.start;
}

double share_of(const grid::GreyPicture& mask) {
    double sum = 0;
    for (const float v : mask.value)
        sum += v;
    return sum / static_cast<double>(mask.value.size());
}

/// Light to dark; `reached` is the value that the washes so far dry to, where the next one goes.
void plan_passes(Draft& draft, const Groups& groups, const std::vector<std::uint8_t>& saved, const ValueMap& map) {
    const std::vector<Tone> tone = tones(draft, groups, saved);
    const auto sheet = static_cast<double>(groups.group.size());
    double reached = paper_lstar;
    for (int k = groups.count - 1; k >= 0; --k) {
        if (tone[k].pixels < least_share * sheet)
            continue;
        DraftPass pass;
        pass.group = k;
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
        if (!pass.into_wet && !draft.passes.empty())
            if (pass.edge_mm = edge_width_mm(groups, k, map); std::isfinite(pass.edge_mm))
                pass.edge = edge_word(pass.edge_mm);
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
    draft.key = key_of(draft.reference);
    draft.reference = in_key(draft.reference, draft.key);
    ValueMap map = resized(value_map(picture), draft.width_mm * mask_pixels_per_mm, draft.height_mm * mask_pixels_per_mm);
    for (float& l : map.lstar)
        l = static_cast<float>(draft.key.at(l));
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
    plan_passes(draft, squinted.groups, saved, map);
    find_start(draft, squinted);
    find_small_lights(draft, squinted, map, options.squint);
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
    if (draft.small_lights)
        out.write("masks/small-lights.png", grid::png_bytes(*draft.small_lights));
    out.write("plan.toml", draft.plan_toml);
    return photograph.note;
}

} // namespace tidemark::reference
