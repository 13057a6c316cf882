#include "report/page_pictures.h"

#include "grid/base64.h"
#include "grid/csv.h"
#include "judge/strength.h"
#include "report/enlarge.h"
#include "report/tables.h"
#include "report/value_compare.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tidemark::report {

namespace {

constexpr int least_side = 480; ///< below it cells would show on paper
constexpr int quality = 80;
constexpr double alike_L = 5; ///< of the difference: within half a step of a ten-step scale

/// Larger or smaller, so that it is sharp on paper and light in the file.
grid::Picture sized(const grid::Picture& p) {
    const int side = std::max(p.width, p.height);
    if (side < least_side)
        return enlarged(p, std::clamp(static_cast<int>(std::lround(600.0 / side)), 2, 16));
    if (side <= longest_side)
        return p;
    const double scale = static_cast<double>(longest_side) / side;
    const auto less = [&](int pixels) { return std::max(1, static_cast<int>(std::lround(scale * pixels))); };
    return grid::resized(p, less(p.width), less(p.height));
}

PagePicture photograph(std::string name, std::string caption, std::string alt, const grid::Picture& picture) {
    const grid::Picture p = sized(picture);
    return {std::move(name), std::move(caption), std::move(alt),
            "data:image/jpeg;base64," + grid::base64(grid::jpeg_bytes(p, quality)), p.width, p.height};
}

/// Values by pixel, L*: steps between flats stay sharp.
PagePicture flat(std::string name, std::string caption, std::string alt, int width, int height, auto&& lstar) {
    grid::GreyPicture p{width, height, {}};
    for (int j = 0; j < height; ++j)
        for (int i = 0; i < width; ++i)
            p.value.push_back(static_cast<float>(grey_of(lstar(i, j))) / 255.0f);
    return {std::move(name), std::move(caption), std::move(alt),
            "data:image/png;base64," + grid::base64(grid::png_bytes(p)), width, height};
}

/// "upper left", "middle": of a place on the sheet, by thirds.
std::string place_word(double x, double y) {
    static constexpr const char* words[3][3] = {{"at the upper left", "at the top", "at the upper right"},
                                                {"on the left", "in the middle", "on the right"},
                                                {"at the lower left", "at the foot", "at the lower right"}};
    const auto third = [](double v) { return std::clamp(static_cast<int>(3 * v), 0, 2); };
    return words[third(y)][third(x)];
}

/// "darks 21 % (their centre on the right), midtones 40 %, lights 39 %"
std::string groups_text(const reference::Groups& g, bool where) {
    std::string text;
    const double all = static_cast<double>(g.group.size());
    for (int k = 0; k < g.count; ++k) {
        double count = 0, x = 0, y = 0;
        for (int j = 0; j < g.height; ++j)
            for (int i = 0; i < g.width; ++i)
                if (g.at(i, j) == k)
                    count += 1, x += i + 0.5, y += j + 0.5;
        text += fmt::format("{}{} {:.0f} %", k == 0 ? "" : ", ", reference::group_word(k, g.count), 100 * count / all);
        if (where && count > 0)
            text += fmt::format(" (their centre {})", place_word(x / count / g.width, y / count / g.height));
    }
    return text;
}

std::string sheet_values(const judge::Values& v) {
    const double mean = v.areas.empty() ? std::nan("") : v.areas.back().sheet_L;
    std::string text = std::isnan(mean) ? "" : fmt::format(" Its mean lightness is {:.0f} L*.", mean);
    if (v.has_reference)
        text += fmt::format(" By the reference's groups: {}.", groups_text(v.sheet_groups, true));
    return text;
}

void add_reference(const PageInputs& in, std::vector<PagePicture>& all) {
    const judge::Values& v = in.verdicts.values;
    const reference::Groups& g = v.reference_groups;
    all.push_back(photograph("Reference", "what the plan is painted after",
                             fmt::format("The reference. Its values: {}.", groups_text(g, true)), in.plan.reference->picture));
    all.push_back(flat("Its values", fmt::format("in {} groups: {}", g.count, groups_text(g, false)),
                       fmt::format("The reference in {} flat greys: {}.", g.count, groups_text(g, true)), g.width, g.height,
                       [&](int i, int j) { return group_grey(v.groups[g.at(i, j)]); }));
}

void add_planned(const PageInputs& in, std::vector<PagePicture>& all) {
    std::vector<int> order;
    for (const auto& act : in.record.acts)
        order.push_back(act.step);
    const reference::ValueMap map = judge::planned_values(in.plan, order);
    const auto [least, most] = std::minmax_element(map.lstar.begin(), map.lstar.end());
    all.push_back(flat("Masses as planned",
                       "each wash flat, as dark as it dries by plan; no lifts, broken strokes, spatter",
                       fmt::format("The planned washes as flat greys, from {:.0f} to {:.0f} L*.", *least, *most), map.width,
                       map.height, [&](int i, int j) { return map.at(i, j); }));
}

void add_wet(const WetSheet& wet, std::vector<PagePicture>& all) {
    const std::string when = grid::clock_text(wet.time_s);
    all.push_back(photograph(
        "Sheet, wet", fmt::format("at {}, {:.0f} % of it under water: darker and richer than it dries", when,
                                  100 * wet.wet_share),
        fmt::format("The sheet as it looks at {}, while {:.0f} % of it is wet.", when, 100 * wet.wet_share), wet.picture));
}

void add_difference(const PageInputs& in, std::vector<PagePicture>& all) {
    const judge::Values& v = in.verdicts.values;
    const grid::Picture p = difference_picture(v, in.dried.lstar);
    double darker = 0, lighter = 0;
    for (int j = 0; j < p.height; ++j)
        for (int i = 0; i < p.width; ++i) {
            const double L = in.dried.lstar(i, j) - v.reference_L.at(i, j);
            darker += L < -alike_L ? 1 : 0, lighter += L > alike_L ? 1 : 0;
        }
    const double percent = 100.0 / (static_cast<double>(p.width) * p.height);
    const std::string shares = fmt::format("too dark on {:.0f} %, too light on {:.0f} % of it by more than {:g} L*",
                                           darker * percent, lighter * percent, alike_L);
    all.push_back(photograph("Sheet less reference",
                             fmt::format("mid grey where alike; darker: too dark ({:.0f} % by over {:g} L*), lighter: too light ({:.0f} %)", darker * percent, alike_L, lighter * percent),
                             fmt::format("Lightness of the sheet less that of the reference: the sheet is {}.", shares), p));
}

} // namespace

std::vector<PagePicture> page_pictures(const PageInputs& in) {
    std::vector<PagePicture> all;
    const bool has_reference = in.verdicts.values.has_reference && in.plan.reference;
    if (has_reference)
        add_reference(in, all);
    add_planned(in, all);
    if (in.wet)
        add_wet(*in.wet, all);
    const char* how = in.record.dried ? "as it stays" : "as it would stay, if all water left at once";
    all.push_back(photograph("Sheet, dry", how, fmt::format("The sheet dry, {}.{}", how, sheet_values(in.verdicts.values)),
                             in.dried.picture));
    if (has_reference)
        add_difference(in, all);
    return all;
}

} // namespace tidemark::report
