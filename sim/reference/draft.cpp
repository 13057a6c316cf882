#include "reference/draft.h"

#include "colour/lab.h"
#include "grid/problem.h"
#include "reference/draft_text_detail.h"
#include "reference/edge_width.h"
#include "reference/lights_to_save.h"
#include "reference/order.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace tidemark::reference {

namespace {

constexpr float saved_lstar = 90;     // lighter than the palest wash worth mixing (0.15 g/m²) dries
constexpr double least_share = 0.001; // of the sheet; less than a thumbnail even on a square one
constexpr double least_load_g_m2 = 0.03;

/// What is drafted: the picture's masses, its values in the sheet's key.
struct Sitting {
    const PictureMasses& seen;
    const Squint& how;
    ValueMap map;
    double pixels_per_mm = 0;
};

/// Paper to be saved: lit parts of the lightest group as light as paper, without crumbs.
std::vector<std::uint8_t> saved_lights(const Sitting& s) {
    const float threshold[] = {saved_lstar};
    const double crumb = s.how.crumb_mm2 * s.pixels_per_mm * s.pixels_per_mm;
    const ValueMap softened = blurred(s.map, s.how.blur_mm * s.pixels_per_mm);
    const Masses m = merged(find_masses(group_with(softened, threshold), s.map), s.map, std::llround(crumb));
    std::vector<std::uint8_t> saved(m.of.size());
    for (std::size_t p = 0; p < saved.size(); ++p)
        saved[p] = m.list[m.of[p]].group == 1 && s.seen.groups.group[p] == s.seen.groups.count - 1;
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
    return count == 3 ? "midtones and darks" : group_word(group, count) + " and darker";
}

/// Where a wash goes: its group and all that is darker, without the saved lights.
grid::GreyPicture mask_of(const Groups& groups, int lightest, const std::vector<std::uint8_t>& saved) {
    grid::GreyPicture mask{groups.width, groups.height, std::vector<float>(groups.group.size())};
    for (std::size_t p = 0; p < mask.value.size(); ++p)
        mask.value[p] = groups.group[p] <= lightest && !saved[p] ? 1.0f : 0.0f;
    return mask;
}

constexpr double hard_below_mm = 1, firm_below_mm = 3, soft_below_mm = 10; // as judge/edges.h has them
constexpr double most_soft_share = 0.75;                         // of an outline: the wash goes into moist paper (our choice)
constexpr double least_soft_share = 0.1;                         // of an outline, to be worth a brush's way (our choice)
constexpr double softest_from_mm = 4, softest_to_mm = 12;        // strips that a small flat brush makes (common practice)
constexpr double band_mm = 12;                                   // of a loaded brush (common practice)
constexpr double narrow_mm = 6, lean_film_um = 60;               // common practice
constexpr double soaked_g_m2 = 220, wetting_pace_cm2_s = 40;     // a 300 g/m² sheet, both faces (common practice)
constexpr double to_air_g_m2_min = 2;                            // of a wet sheet in a room (from memory)

const char* edge_word(double mm) {
    return mm < hard_below_mm ? "hard" : mm < firm_below_mm ? "firm" : mm <= soft_below_mm ? "soft" : "lost";
}

/// The boundary of one light with what is darker than it.
struct Rim {
    int light = 0;
    double width_mm = 0, outline = 0;
};

/// Half of the outline has an edge of that width or less; NaN: nothing tells.
double middle_width_mm(std::vector<Rim> rims) {
    std::sort(rims.begin(), rims.end(), [](const Rim& a, const Rim& b) { return a.width_mm < b.width_mm; });
    double all = 0, so_far = 0;
    for (const Rim& r : rims)
        all += r.outline;
    for (const Rim& r : rims)
        if ((so_far += r.outline) >= 0.5 * all)
            return r.width_mm;
    return std::nan("");
}

/// What the picture's edges are between group `darkest_light` and what is darker, and what follows for the wash.
void choose_edges(DraftPass& pass, const Sitting& s, int darkest_light) {
    Groups two = s.seen.groups;
    two.count = 2, two.pixels.assign(2, 0), two.mean_lstar.assign(2, 0);
    for (auto& g : two.group)
        g = g > darkest_light;
    const Masses m = find_masses(two, s.map);
    std::vector<int> lights;
    for (std::size_t k = 0; k < m.list.size(); ++k)
        if (m.list[k].group == 1)
            lights.push_back(static_cast<int>(k));
    const double reach = soft_below_mm * s.pixels_per_mm;
    const std::vector<double> pixels = edge_widths(m, s.map, lights, std::vector<double>(lights.size(), 2 * reach), reach);
    std::vector<Rim> rims;
    double all = 0;
    for (std::size_t k = 0; k < lights.size(); ++k) {
        double outline = 0;
        for (const Border& b : m.list[lights[k]].neighbours)
            outline += static_cast<double>(b.length);
        all += outline; // of what the picture doesn't tell, too
        if (!std::isfinite(pixels[k]))
            continue;
        rims.push_back({lights[k], pixels[k] / s.pixels_per_mm, outline});
    }
    std::vector<Rim> soft, crisp;
    double soft_outline = 0;
    for (const Rim& r : rims) {
        (r.width_mm >= firm_below_mm ? soft : crisp).push_back(r);
        if (r.width_mm >= firm_below_mm) soft_outline += r.outline;
    }
    if (rims.empty())
        return;
    pass.into_moist = soft_outline >= most_soft_share * all;
    pass.edge_mm = middle_width_mm(pass.into_moist || crisp.empty() ? soft : crisp);
    pass.edge = edge_word(pass.edge_mm);
    if (pass.into_moist || soft_outline < least_soft_share * all)
        return;
    SoftPart part;
    part.share = soft_outline / all;
    part.width_mm = std::clamp(middle_width_mm(soft), softest_from_mm, softest_to_mm);
    std::vector<std::uint8_t> chosen(m.list.size(), 0);
    for (const Rim& r : soft)
        chosen[r.light] = 1;
    part.beside = grid::GreyPicture{m.width, m.height, std::vector<float>(m.of.size())};
    for (std::size_t p = 0; p < m.of.size(); ++p)
        part.beside.value[p] = chosen[m.of[p]] ? 1.0f : 0.0f;
    pass.soft = std::move(part);
}

/// Lights too small for a brush to be led round, where they stand out of what is to be painted darker.
void find_small_lights(Draft& draft, const Sitting& s) {
    constexpr double least_contrast_L = 20; // of body colour over a wash, to be worth a touch
    const Masses fine = fine_masses(s.seen, s.how);
    std::vector<std::uint8_t> chosen(fine.list.size(), 0);
    const auto lstar_of = [&](double lstar) { return draft.key.at(lstar); };
    const auto painted_lstar = [&](const Light& light) { // of the mass that is painted there
        const int x = std::clamp(static_cast<int>(light.at.x_mm * s.pixels_per_mm), 0, s.map.width - 1);
        const int y = std::clamp(static_cast<int>(light.at.y_mm * s.pixels_per_mm), 0, s.map.height - 1);
        return lstar_of(s.seen.masses.list[s.seen.masses.at(x, y)].mean_lstar);
    };
    for (const Light& light : lights_to_save(s.seen.masses, fine, s.seen.map, s.pixels_per_mm, {.light_from = s.seen.groups.count - 1}))
        if (light.keep == Keep::reserve && light.fine && lstar_of(fine.list[light.mass].mean_lstar) - painted_lstar(light) >= least_contrast_L)
            chosen[light.mass] = 1, ++draft.small_light_count;
    if (draft.small_light_count == 0)
        return;
    grid::GreyPicture mask{s.map.width, s.map.height, std::vector<float>(s.map.lstar.size())};
    for (std::size_t p = 0; p < mask.value.size(); ++p)
        mask.value[p] = chosen[fine.of[p]] ? 1.0f : 0.0f;
    draft.small_lights = std::move(mask);
}

/// Where the connected wash begins, how long it takes, and how long the hand leaves its edges.
void find_start(Draft& draft, const Sitting& s) {
    const int lightest = s.seen.groups.count - 1;
    const auto wash = std::find_if(draft.passes.begin(), draft.passes.end(),
                                   [&](const DraftPass& p) { return p.group == lightest - 1; });
    const Connected shape = connected_shape(s.seen.masses, s.pixels_per_mm, {.light_from = lightest});
    if (shape.pieces.empty() || wash == draft.passes.end())
        return;
    draft.hangs_together = shape.share;
    const Order order = painting_order(s.seen.masses, shape, s.pixels_per_mm, {.pace_cm2_s = wash_pace_cm2_s});
    draft.connected_minutes = order.minutes;
    wash->start = order.start;
    wash->left_s = order.longest_wait_in_turn_s;
}

double share_of(const grid::GreyPicture& mask) {
    double sum = 0;
    for (const float v : mask.value)
        sum += v;
    return sum / static_cast<double>(mask.value.size());
}

/// Twice the area over the outline: the width of a long shape.
double mean_width_mm(const grid::GreyPicture& mask, double pixels_per_mm) {
    double area = 0, outline = 0;
    for (int y = 0; y < mask.height; ++y)
        for (int x = 0; x < mask.width; ++x) {
            const bool in = mask.at(x, y) > 0.5f;
            area += in;
            if (x > 0) outline += in != (mask.at(x - 1, y) > 0.5f);
            if (y > 0) outline += in != (mask.at(x, y - 1) > 0.5f);
        }
    return outline > 0 ? 2 * area / outline / pixels_per_mm : 1e4;
}

/// Deep enough that no edge stops joining before the hand is back, no deeper.
void choose_film(DraftPass& pass, const Draft& draft, const Sitting& s, const OpenFor& open_for) {
    pass.film_um = draft_films_um[1];
    if (pass.into_wet) {
        pass.film_um = draft_films_um[2]; // the wet sheet takes up some of it
        return;
    }
    // To and fro in bands: the first end of one waits until the hand is back with the next.
    pass.left_s = std::max(pass.left_s, 2 * draft.width_mm * band_mm / (100 * pace_cm2_s(pass)));
    if (mean_width_mm(pass.mask, s.pixels_per_mm) < narrow_mm) {
        pass.film_um = lean_film_um;
        return;
    }
    if (!open_for)
        return;
    for (const double film_um : draft_films_um)
        if (pass.film_um = film_um; open_for(film_um) >= pass.left_s)
            return;
    pass.too_long = true;
}

/// Light to dark; `reached` is the value that the washes so far dry to, where the next one goes.
void plan_passes(Draft& draft, const Sitting& s, const std::vector<std::uint8_t>& saved) {
    const Groups& groups = s.seen.groups;
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
            choose_edges(pass, s, k);
        reached = pass.dries_to_lstar = lstar_at(*pass.mix, there + pass.load_g_m2);
        draft.passes.push_back(std::move(pass));
    }
}

/// Masses with a name of the painter's get an area each, for her to use.
void name_masses(Draft& draft, const PictureMasses& seen) {
    for (std::size_t k = 0; k < seen.names.size(); ++k) {
        if (seen.names[k].empty())
            continue;
        if (seen.names[k] == "sheet" || seen.names[k] == "paper")
            throw grid::BadInput("--name", "no area of a plan can be called \"" + seen.names[k] + "\"", "another name");
        for (const DraftPass& pass : draft.passes)
            if (area_name(pass) == seen.names[k] || soft_area_name(pass) == seen.names[k] || seen.names[k] == small_lights_name)
                throw grid::BadInput("--name", "\"" + seen.names[k] + "\" is the name of one of the draft's own areas", "another name");
        grid::GreyPicture mask{seen.masses.width, seen.masses.height, std::vector<float>(seen.masses.of.size())};
        for (std::size_t p = 0; p < mask.value.size(); ++p)
            mask.value[p] = seen.masses.of[p] == static_cast<int>(k) ? 1.0f : 0.0f;
        draft.named.emplace_back(seen.names[k], std::move(mask));
    }
}

} // namespace

grid::Picture sized_as_reference(const grid::Picture& picture, const SheetSize& sheet) {
    const double longest_mm = std::max(sheet.width_mm, sheet.height_mm);
    const double pixels_per_mm = std::clamp(std::ceil(std::max(picture.width, picture.height) / longest_mm), 1.0, 4.0);
    const auto pixels = [&](double mm) { return std::max(1, static_cast<int>(std::lround(mm * pixels_per_mm))); };
    return grid::resized(picture, pixels(sheet.width_mm), pixels(sheet.height_mm));
}

Draft draft_plan(const grid::Picture& picture, const PictureMasses& seen, const Looking& how, const std::string& picture_name,
                 const OpenFor& open_for) {
    Draft draft;
    draft.picture_name = picture_name;
    draft.groups = how.masks.empty() ? how.groups : static_cast<int>(how.masks.size());
    draft.width_mm = seen.sheet.width_mm, draft.height_mm = seen.sheet.height_mm;
    draft.reference = sized_as_reference(picture, {draft.width_mm, draft.height_mm});
    draft.key = key_of(draft.reference);
    draft.reference = in_key(draft.reference, draft.key);
    Sitting s{seen, how.squint, seen.map, seen.pixels_per_mm};
    for (float& l : s.map.lstar)
        l = static_cast<float>(draft.key.at(l));
    std::vector<std::uint8_t> saved = saved_lights(s);
    double saved_pixels = 0;
    for (const std::uint8_t p : saved)
        saved_pixels += p;
    draft.saved_share = saved_pixels / static_cast<double>(saved.size());
    if (draft.saved_share > 1 - least_share) { // a white picture: a breath of colour over all, so that there is a plan
        std::fill(saved.begin(), saved.end(), std::uint8_t{0});
        draft.saved_share = 0;
    }
    plan_passes(draft, s, saved);
    find_start(draft, s);
    for (DraftPass& pass : draft.passes)
        choose_film(pass, draft, s, open_for);
    const double sheet_cm2 = draft.width_mm * draft.height_mm / 100;
    draft.wet_g_m2 = std::round(soaked_g_m2 + to_air_g_m2_min * sheet_cm2 * (2 / wetting_pace_cm2_s + 1 / wet_wash_pace_cm2_s) / 60);
    find_small_lights(draft, s);
    name_masses(draft, seen);
    draft.plan_toml = plan_text(draft);
    return draft;
}

Draft draft_plan(const grid::Picture& picture, const std::string& picture_name) {
    Looking how;
    how.sheet = sheet_for(picture.width, picture.height, picture_name);
    return draft_plan(picture, masses_in(picture, how), how, picture_name);
}

void tell_times(Draft& draft, const std::vector<PassTimes>& times) {
    for (std::size_t k = 0; k < draft.passes.size() && k < times.size(); ++k)
        draft.passes[k].times = times[k];
    draft.plan_toml = plan_text(draft);
}

void write_draft(const Draft& draft, grid::OutputFolder& out) {
    const double pixels_per_m = 1000.0 * draft.reference.width / draft.width_mm;
    out.write("reference.png", grid::png_bytes(draft.reference, pixels_per_m));
    const auto mask = [&](const std::string& name, const grid::GreyPicture& m) { out.write("masks/" + name + ".png", grid::png_bytes(m)); };
    for (const DraftPass& pass : draft.passes) {
        mask(area_name(pass), pass.mask);
        if (pass.soft) mask(soft_area_name(pass), pass.soft->beside);
    }
    for (const auto& [name, m] : draft.named)
        mask(name, m);
    if (draft.small_lights)
        mask(small_lights_name, *draft.small_lights);
    out.write("plan.toml", draft.plan_toml);
}

} // namespace tidemark::reference
